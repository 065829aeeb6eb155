package growth

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"time"
)

// MarshalJSON writes a figure that there isn't as null.
func (l Line) MarshalJSON() ([]byte, error) {
	type line Line
	values := make([]*float64, len(l.Values))
	for i := range l.Values {
		if !math.IsNaN(l.Values[i]) {
			values[i] = &l.Values[i]
		}
	}
	return json.Marshal(struct {
		line
		Values []*float64 `json:"values"`
	}{line(l), values})
}

// Column names a line in a table: "dark_share", "dark_light_gap_tones", "#e2ab85_tones". Of two local
// colours of one code the later has its number added.
func (s *Series) Column(i int) string {
	l := &s.Lines[i]
	switch l.Kind {
	case GroupShare:
		return underscored(l.Group) + "_share"
	case Gap:
		return underscored(l.Group) + "_" + underscored(l.Lighter) + "_gap_tones"
	case Murk:
		return "murk_share"
	case LostEdges:
		return "lost_edges_length"
	case Distance:
		return "target_distance_tones"
	case Tones, HueShift:
		name := map[Kind]string{Tones: "tones", HueShift: "hue_shift_degrees"}[l.Kind]
		code := s.LocalColours[*l.LocalColour].Light.Colour.Hex()
		for k := range *l.LocalColour {
			if s.LocalColours[k].Light.Colour.Hex() == code {
				return fmt.Sprintf("%s_%d_%s", code, *l.LocalColour+1, name)
			}
		}
		return code + "_" + name
	}
	return string(l.Kind)
}

// underscored is a name without spaces.
func underscored(name string) string {
	b := []byte(name)
	for i, c := range b {
		if c == ' ' {
			b[i] = '_'
		}
	}
	return string(b)
}

// WriteCSV writes the series as a table: a row a moment, named by names, with its time, and a column
// a line; a figure that there isn't is empty. As RFC 4180 has it rows end in CR LF, the first has the
// columns' names, and what needs it is quoted. The text is UTF-8, figures have a point and no unit.
func (s *Series) WriteCSV(w io.Writer, names []string) error {
	table := csv.NewWriter(w)
	table.UseCRLF = true
	row := []string{"name", "time"}
	for i := range s.Lines {
		row = append(row, s.Column(i))
	}
	_ = table.Write(row) // Flush tells
	for i := range s.Moments {
		row = append(row[:0], names[i], "")
		if at := s.Moments[i].At; !at.IsZero() {
			row[1] = at.Format(time.RFC3339)
		}
		for k := range s.Lines {
			figure := ""
			if v := s.Lines[k].Values[i]; !math.IsNaN(v) {
				figure = strconv.FormatFloat(v, 'g', 6, 64)
			}
			row = append(row, figure)
		}
		_ = table.Write(row)
	}
	table.Flush()
	if err := table.Error(); err != nil {
		return fmt.Errorf("write the table: %w", err)
	}
	return nil
}
