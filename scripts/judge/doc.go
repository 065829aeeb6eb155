// Judge says how well local colours are found: in the drawings of testdata/drawings, in painted
// scenes, and whether answers stay where a picture is shifted, scaled, turned or framed.
package main
