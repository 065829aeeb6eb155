package command

import (
	"slices"
	"strings"

	"app.tonedesk/gui/language"
)

// usageLine says what words on the command line do; only what they do is said in the reader's language.
type usageLine struct {
	words string
	does  language.Words
}

// commandUsage are the commands.
var commandUsage = []usageLine{
	{"desk [PICTURE]", "open the window, on the remembered region of the screen or on a picture file"},
	{"desk read FILE...", "say what the window measures, for picture files"},
	{"desk spot COLOUR...", "read colours, written #rgb, #rrggbb or rgb(r g b)"},
	{"desk compare A B", "say how far apart two colours are in lightness, or what changed from picture or still A to B"},
	{"desk shade COLOUR...", "propose shadows, lights, accents and lines"},
	{"desk match A B", "bring B to the lightness of A"},
	{"desk palette FILE...", "list the colours that picture files are painted with"},
	{"desk relight FILE...", "list the shadows that another light would give them"},
	{"desk stills", "list the stills, newest first"},
	{"desk stills --series [STILL|PICTURE...]", "say how a picture grew: over stills and picture files in the order given, else over the stills of the picture that was kept last"},
	{"desk sheet PICTURE", "export a picture or a still as a critique sheet (a still by its ID, its folder, or its name)"},
	{"desk help [COMMAND]", "print this page, or what one command does"},
	{"desk --version", "print the version"},
}

// optionUsage are their options.
var optionUsage = []usageLine{
	{"--json", "print one JSON object a line"},
	{"read --spots x,y;x,y", "read places too, in pixels from the top left"},
	{"read --size 1|3|5|11", "side of the square averaged for a place, else 3"},
	{"read --focus x,y", "say whether the strongest contrast lies there; may be given again"},
	{"read --groups 2|3|4", "split the lightness into so many groups"},
	{"read --without-ground", "split the picture without the blank ground round it"},
	{"read --ground COLOUR", "what lies under half-transparent pixels, else white"},
	{"read --target PICTURE", "say how far each picture is from this one"},
	{"read --workspace keep", "count the workspace around a canvas too; auto leaves it out where it is certain that it is one, else auto"},
	{"read --no-families", "don't look for local colours"},
	{"compare --tolerance T", "lightness up to which two colours count as the same, 0.5 to 5, else 2.0"},
	{"shade --shadow cool|warm", "the shadow's hue: violet-blue, or brown-red"},
	{"shade --shadow-hue H", "or any Oklch hue, 0 to 360 degrees, else 283"},
	{"shade --hue-shift S", "hue shift, 0 to 1, else 0.15: 20 degrees for skin"},
	{"shade --gain G", "saturation gain per tone, -0.5 to 2, else 0.1"},
	{"shade --chroma C", "Oklch chroma of the accents, 0 to 0.4, else 0.12"},
	{"shade --equal WHAT", "accents keep lightness, layer-grey or seen-lightness"},
	{"shade --judge SHADOW", "judge a shadow that you chose for COLOUR"},
	{"shade --as PICTURE", "the shadow and the light that a picture's own light would give it"},
	{"palette|relight --png FILE", "write a picture of the swatches"},
	{"palette|relight --css FILE", "write custom properties, #rrggbb and oklch()"},
	{"palette|relight --force", "write over files that are there"},
	{"palette|relight --ground COLOUR", "what lies under half-transparent pixels, else white"},
	{"relight --warmer M", "a light so many mired warmer, -113 (cooler) to 96"},
	{"relight --deeper T", "shadows so many tones deeper, -3 to 3"},
	{"stills --csv FILE", "write the lines of a series as a table too, RFC 4180"},
	{"stills --force", "write over a file that is there"},
	{"stills --turn T", "from how many tones on a line has turned, 0.2 to 2, else 0.5; other lines in proportion"},
	{"stills --groups 2|3|4", "as read has it, for a series; so have the next two"},
	{"stills --without-ground", "split the pictures without the ground"},
	{"stills --target PICTURE", "say how far each is from this one"},
	{"sheet -o FILE", "where to: a sheet as .png or .pdf, the picture in layers as .ora, what is known of it as .json; else a PDF file in this folder, or a PNG for --picture"},
	{"sheet --page a4|16:9", "size of the page, else a4"},
	{"sheet --picture", "the picture with its notes instead, as .png"},
	{"sheet --force", "write over a file that is there"},
	{"spot -, shade -", "read one colour a line from standard input"},
	{"compare -, match -", "read one pair of colours a line from standard input"},
}

// Columns of the usage: where what words do begins, and where lines end.
const (
	usageDoes = 27
	usageWide = 80
)

// usage is what desk help prints.
func usage() string {
	var b strings.Builder
	b.WriteString(language.Say("Tonedesk measures the lightness of a painting.") + "\n\n")
	writeUsage(&b, commandUsage)
	b.WriteString("\n" + language.Say("Options") + "\n")
	writeUsage(&b, optionUsage)
	b.WriteString("\n" + language.Say("Quote colours for the shell: %s", "desk compare '#e2ab85' '#b26a5c'") + "\n")
	for _, line := range folded(language.Say("It ends with 0 when done, with 1 when a file or a line could not be read (the others are still reported), and with 2 when it was used wrongly."), usageWide-1) {
		b.WriteString(line + "\n")
	}
	return b.String()
}

// usageOf is what desk help prints of one command and its options; "" for a name that is none.
func usageOf(name string) string {
	of := func(lines []usageLine) (own []usageLine) {
		for _, l := range lines {
			for way := range strings.SplitSeq(strings.TrimPrefix(l.words, "desk "), ", ") {
				if word, _, _ := strings.Cut(way, " "); slices.Contains(strings.Split(word, "|"), name) {
					own = append(own, l)
				}
			}
		}
		return own
	}
	commands := of(commandUsage)
	if len(commands) == 0 {
		return ""
	}
	var b strings.Builder
	writeUsage(&b, commands)
	if options := of(optionUsage); len(options) > 0 {
		b.WriteString("\n" + language.Say("Options") + "\n")
		writeUsage(&b, append(options, optionUsage[0]))
	}
	return b.String()
}

// writeUsage writes lines in two columns.
func writeUsage(b *strings.Builder, lines []usageLine) {
	for _, l := range lines {
		head := "  " + l.words
		if len(head) > usageDoes-2 {
			b.WriteString(head + "\n")
			head = ""
		}
		for _, line := range folded(l.does.String(), usageWide-1-usageDoes) {
			b.WriteString(strings.TrimRight(padded(head, usageDoes)+line, " ") + "\n")
			head = ""
		}
	}
}

// folded breaks text at its spaces, or between letters where a language has none, into lines of so
// many letters.
func folded(text string, wide int) (lines []string) {
	line := ""
	for word := range strings.FieldsSeq(text) {
		switch {
		case line == "":
			line = word
		case letters(line)+1+letters(word) <= wide:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
		for letters(line) > wide {
			cut := 0
			for at := range line {
				if letters(line[:at]) <= wide {
					cut = at
				}
			}
			lines, line = append(lines, line[:cut]), line[cut:]
		}
	}
	return append(lines, line)
}
