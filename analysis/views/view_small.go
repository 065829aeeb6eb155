package views

// The greys, and beside them the whole picture made small, as greys too: what survives as a
// thumbnail.
var smallView = View{Key: "small", Name: "Small size", Knob: &smallKnob, Paint: paintGrey, Beside: smallKnob.At}

// smallKnob is the small picture's longer side.
var smallKnob = Knob{Name: "Longer side", Unit: "px", From: 64, To: 256, Step: 16, Start: 128}
