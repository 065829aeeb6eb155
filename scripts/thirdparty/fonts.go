package main

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strings"

	"golang.org/x/image/font/sfnt"
)

// fontTexts says which text beside fonts is whose: their names don't tell a program.
var fontTexts = []struct{ pkg, font, text string }{
	{"fyne.io/fyne/v2/theme", "DejaVuSansMono-Powerline.ttf", "font/LICENSE_DejaVu-Powerline.txt"},
	{"fyne.io/fyne/v2/theme", "InterSymbols-Regular.ttf", "font/LICENSE_Inter.txt"},
	{"fyne.io/fyne/v2/theme", "NotoSans-", "font/LICENSE.txt"},
}

// goFonts is where packages lie that each hold a font as Go code.
const goFonts = "golang.org/x/image/font/gofont/"

// fonts returns the fonts that p carries.
func (p linked) fonts() (fonts []*work, err error) {
	if name, ok := strings.CutPrefix(p.ImportPath, goFonts); ok {
		fonts = append(fonts, &work{name: "the font " + name, version: "of " + p.Module.Path,
			texts: []string{filepath.Join(p.Dir, "../ttfs/README")}})
	}
	for _, file := range p.EmbedFiles {
		switch strings.ToLower(path.Ext(file)) {
		case ".ttf", ".otf", ".ttc", ".woff", ".woff2", ".pfb":
			w := &work{name: "the font " + path.Base(file), version: "of " + p.Module.Path}
			for _, t := range fontTexts {
				if t.pkg == p.ImportPath && strings.HasPrefix(path.Base(file), t.font) {
					w.texts = []string{filepath.Join(p.Dir, t.text)}
					if w.note, err = fontCopyright(filepath.Join(p.Dir, file)); err != nil {
						return nil, err
					}
				}
			}
			fonts = append(fonts, w)
		}
	}
	return fonts, nil
}

// fontCopyright returns what a font says in itself about whose it is: the Open Font License
// lies beside some without that.
func fontCopyright(file string) (string, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	font, err := sfnt.Parse(data)
	if err != nil {
		return "", fmt.Errorf("read the font %s: %w", filepath.Base(file), err)
	}
	words, err := font.Name(nil, sfnt.NameIDCopyright)
	if err != nil {
		return "", fmt.Errorf("read whose the font %s is: %w", filepath.Base(file), err)
	}
	return strings.Join(strings.Fields(words), " "), nil
}
