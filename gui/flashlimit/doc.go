// Package flashlimit holds changes of how all of a picture looks to a rate at which nothing flashes
// (WCAG 2.2, success criterion 2.3.1). It knows neither the looks nor the toolkit.
package flashlimit
