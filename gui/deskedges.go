package gui

// edgeMoved sets the groups' edges by hand, as the spread shows them, with edge i at a
// lightness (L*). The moves of one drag are one step of undo.
func (d *Desk) edgeMoved(i int, to float64, end bool) {
	edges := d.parts.spread.Edges()
	if i >= len(edges) {
		return
	}
	edges[i] = to
	next := d.setup
	next.Edges = edges
	d.change(next, "edge")
	if end {
		d.history.Settle()
	}
}

// keepEdges keeps the groups' edges where they are now, whatever is painted.
func (d *Desk) keepEdges() {
	edges := d.parts.spread.Edges()
	if len(edges) == 0 {
		d.Messages.Note("There are no edges: all of the picture is one group.")
		return
	}
	next := d.setup
	next.Edges = edges
	d.change(next, "")
}

// edgesAutomatic lets the edges be found by themselves again.
func (d *Desk) edgesAutomatic() {
	if len(d.setup.Edges) == 0 {
		d.Messages.Note("The groups' edges are found by themselves already.")
		return
	}
	next := d.setup
	next.Edges = nil
	d.change(next, "")
}

// setGroups asks for a number of groups, 0 for as many as the picture needs, with edges
// that are found by themselves.
func (d *Desk) setGroups(n int) {
	if len(d.setup.Edges) > 0 {
		d.edgesAutomatic()
	}
	d.settings.Groups = n
	d.settled()
}
