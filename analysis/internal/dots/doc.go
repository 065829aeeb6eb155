// Package dots draws the even neutral marks over pixels that are left out or beyond limits.
package dots
