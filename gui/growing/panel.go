package growing

import (
	"slices"
	"sync/atomic"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/series"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// MostRead is of how many stills lines are drawn at most; of more they are taken evenly (our choice:
// a line has not many more pixels, and each takes about half a second to be read).
const MostRead = 60

// Panel shows how a picture grew. It is used on the Fyne goroutine only.
type Panel struct {
	*host.Host
	Box  fyne.CanvasObject
	acts Acts

	card   *widgets.GrowthCard
	words  *widget.Label // in its place while there are no lines
	reader *series.Reader
	shown  asked
	turn   atomic.Int64 // counts what was asked for: what is read for an older one is given up
}

// Acts is what the panel asks of the window.
type Acts struct {
	Asked func() (series.Asked, series.Told) // as the settings are
}

// asked is what is shown, or being read.
type asked struct {
	list  []stills.Entry
	of    int // of so many, before they were thinned
	asked series.Asked
	told  series.Told
}

func (a *asked) same(o *asked) bool {
	return a.of == o.of && a.asked == o.asked && a.told == o.told && slices.EqualFunc(a.list, o.list, stills.Entry.Unchanged)
}

// New returns a panel without stills.
func New(h *host.Host, acts Acts) *Panel {
	p := &Panel{Host: h, acts: acts, card: widgets.NewGrowthCard(), words: widgets.SmallLabel(), reader: &series.Reader{Store: h.Store}}
	p.words.Wrapping = fyne.TextWrapWord
	head := widgets.NewHeading(icons.Growth, language.Say("How it grew"), language.Say("what has turned?"))
	column := widgets.NewCard(widgets.Beside(head), p.words, widgets.Beside(p.card))
	p.card.Hide()
	gutter := func(wide float32, o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(layout.NewCustomPaddedLayout(0, 0, 0, wide), o)
	}
	p.Box = gutter(-widgets.Gutter, container.NewVScroll(gutter(widgets.Gutter, container.NewVBox(column)))) // its bar in the gutter
	return p
}

// Text is what the panel shows; nothing while it shows no lines.
func (p *Panel) Text() (text wording.GrowthText) {
	if p.card.Visible() {
		text = p.card.Text()
	}
	return text
}

// Show shows how the picture grew over stills, oldest first, without holding up the window; keep is
// the place of one that is never left out. The same ones once more cost nothing.
func (p *Panel) Show(list []stills.Entry, keep int) {
	next := asked{list: series.Thin(list, MostRead, keep), of: len(list)}
	next.asked, next.told = p.acts.Asked()
	if p.shown.list != nil && next.same(&p.shown) {
		return
	}
	turn := p.turn.Add(1)
	p.shown = next
	if len(next.list) < 2 {
		p.shown.list = nil
		p.say(wording.SayNoSeries(len(next.list)))
		return
	}
	p.read(turn, next)
}

// Leave gives up what is being read: nobody looks.
func (p *Panel) Leave() {
	p.turn.Add(1)
	p.shown = asked{}
}

// read reads the stills and shows them, unless something else is asked for meanwhile.
func (p *Panel) read(turn int64, next asked) {
	if !p.card.Visible() {
		p.say(wording.SayReadingSeries(0, len(next.list)))
	}
	wanted := func() bool { return p.turn.Load() == turn }
	var text wording.GrowthText
	var failed []error
	read := 0
	p.Background(func() error {
		of, moments, err := p.reader.Read(next.list, next.asked, func(done int) bool {
			p.Soon(func() {
				if wanted() && !p.card.Visible() {
					p.say(wording.SayReadingSeries(done, len(next.list)))
				}
			})
			return wanted()
		}, func(_ stills.Entry, err error) { failed = append(failed, err) })
		if err != nil || !wanted() {
			return err
		}
		if read = len(of); read >= 2 {
			text = series.Text(of, moments, next.of, next.told)
		}
		return nil
	}, func(err error) {
		if !wanted() {
			return
		}
		for _, err := range append(failed, err) {
			if err != nil {
				p.Messages.Note(wording.Explain("read a still", err))
			}
		}
		if read < 2 {
			p.shown.list = nil
			p.say(wording.SayNoSeries(read))
			return
		}
		p.words.Hide()
		p.card.Set(text)
		p.card.Show()
		p.Box.Refresh()
		p.Changed()
	})
}

// say shows words in place of lines.
func (p *Panel) say(words string) {
	p.card.Hide()
	p.words.SetText(words)
	p.words.Show()
	p.Box.Refresh()
	p.Changed()
}
