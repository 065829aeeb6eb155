package command

import (
	"cmp"
	"fmt"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// relightOptions are the options of desk relight.
var relightOptions = []option{
	{name: "json"}, {"warmer", "M"}, {"deeper", "T"}, {"png", "FILE"}, {"css", "FILE"}, {name: "force"}, {"ground", "COLOUR"},
}

// runRelight says what shadows a chosen light would give to the local colours of pictures. No
// picture is changed.
func runRelight(c *call) error {
	plan, ground, change := palettePlan{force: c.given("force")}, analysis.White, light.Change{}
	err := cmp.Or(
		c.number(number{name: "warmer", value: &change.Warmer, from: light.MostCooler, to: light.MostWarmer,
			why: "it is not a number of mired from -113 to 96", act: "write a number such as 50"}),
		c.number(number{name: "deeper", value: &change.Deeper, from: -light.MostDeeper, to: light.MostDeeper,
			why: "it is not a number of tones from -3 to 3", act: "write a number such as 0.5"}),
		c.colour("ground", &ground),
		c.file("png", &plan.png, "name the file to write", "", "-"),
		c.file("css", &plan.css, "name the file to write", "", "-"),
	)
	if err = cmp.Or(err, plan.check(c.operands, "relight a picture", "each has a light of its own")); err != nil {
		return err
	}
	c.eachFile(func(path string) (func() error, error) {
		p, err := readLight(path, ground)
		if err != nil {
			return nil, err
		}
		under, ok := p.light.Relight(p.families, change)
		if !ok {
			return nil, unlit("relight %s", path)
		}
		r := relightReport{p.pictureFile, *p.light.Ratio, p.light.OneLight, under}
		return func() error {
			c.report(r, r.write)
			return plan.export(path, swatches.OfRelit(under))
		}, nil
	})
	return nil
}

// relightReport is what desk relight says of a picture file.
type relightReport struct {
	pictureFile
	Own      light.Ratio `json:"own_ratio"`
	OneLight *bool       `json:"one_light"` // whether the picture has one light at all; null for one local colour
	light.Under
}

// write prints the report.
func (r relightReport) write(w io.Writer) {
	r.writeHead(w, true)
	labelled(w, "light¦label", wording.Stopped(wording.SayRelight(r.Change)))
	if r.OneLight != nil && !*r.OneLight {
		labelled(w, "", wording.Stopped(wording.NoOneLight.String()))
	}
	writeSpotHead(w, fmt.Sprintf("  %-22s", ""))
	for i, l := range r.Relit {
		writeSpot(w, "  "+padded(language.Say("local colour %d", i+1), 22), l.Light)
		writeSpot(w, "  "+padded("  "+language.Say("shadow now"), 22), l.Was)
		writeSpotSaid(w, "  "+padded("  "+language.Say("in the chosen light"), 22), *l.Shadow.Spot, plain(wording.SayStep(l.Light, l.Shadow)))
	}
}
