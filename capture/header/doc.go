// Package header reads what picture files say of their pictures before they are decoded: how they
// are turned, which colours their numbers stand for, how much they take. It copes with any bytes:
// every count and offset is checked. What is wrong with the picture itself is the decoder's to say.
package header
