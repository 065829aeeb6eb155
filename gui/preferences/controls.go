package preferences

import (
	"slices"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
)

// amount is a number as a slider.
func (p *Page) amount(name string, from, to, step float64, say func(float64) string, field func(*settings.Settings) *float64) widgets.FormRow {
	a := widgets.NewAmount(widgets.NewSlider(from, to, step, p.Keys), *field(p.now), say, func(v float64) {
		p.set(func(s *settings.Settings) { *field(s) = v })
	}, false)
	p.sync = append(p.sync, func() { a.Set(*field(p.now)) })
	return widgets.FormRow{Name: name, Control: a}
}

// list is a value to choose from a list.
func list[T comparable](p *Page, name string, values []T, word func(T) string, field func(*settings.Settings) *T) widgets.FormRow {
	return widgets.FormRow{Name: name, Control: widgets.NewPicklist(words(values, word), slices.Index(values, *field(p.now)), p.Keys, p.OpenList, func(i int) {
		p.set(func(s *settings.Settings) { *field(s) = values[i] })
	})}
}

// segments is a value to choose from a row.
func segments[T comparable](p *Page, name string, values []T, word func(T) string, field func(*settings.Settings) *T) widgets.FormRow {
	var c *widgets.Chooser
	c = widgets.NewChooser(words(values, word), p.Keys, func(i int) {
		c.Set(i)
		p.set(func(s *settings.Settings) { *field(s) = values[i] })
	}).Lists(p.OpenList)
	c.Set(slices.Index(values, *field(p.now)))
	return widgets.FormRow{Name: name, Control: c}
}

func words[T any](values []T, word func(T) string) (all []string) {
	for _, v := range values {
		all = append(all, word(v))
	}
	return all
}
