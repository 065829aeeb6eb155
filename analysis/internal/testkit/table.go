package testkit

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"
)

// Table is a file of testdata: rows of named columns. testdata/README.md has the sources.
type Table struct {
	t    *testing.T
	file string
	head map[string]int
	Rows [][]string
}

// ReadTable reads a file of testdata.
func ReadTable(t *testing.T, file string) Table {
	t.Helper()
	f, err := os.Open(filepath.Join(root(), "testdata", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %v, %d rows", file, err, len(rows))
	}
	tab := Table{t: t, file: file, head: map[string]int{}, Rows: rows[1:]}
	for i, name := range rows[0] {
		tab.head[name] = i
	}
	return tab
}

// Cell returns a column of a row as text.
func (tab Table) Cell(row []string, column string) string {
	tab.t.Helper()
	i, ok := tab.head[column]
	if !ok {
		tab.t.Fatalf("%s has no column %q", tab.file, column)
	}
	return row[i]
}

// Number returns a column of a row.
func (tab Table) Number(row []string, column string) float64 {
	tab.t.Helper()
	v, err := strconv.ParseFloat(tab.Cell(row, column), 64)
	if err != nil {
		tab.t.Fatalf("%s: %v", tab.file, err)
	}
	return v
}

// Check compares got with a column of a row.
func (tab Table) Check(row []string, column string, got, tol float64) {
	tab.t.Helper()
	if want := tab.Number(row, column); !(math.Abs(got-want) <= tol) { // so that NaN fails
		tab.t.Errorf("%s, %v: %s is %.10g, want %.10g within %g", tab.file, row[0], column, got, want, tol)
	}
}

// root is the module's folder: the tests of every room find testdata from here.
func root() string {
	_, file, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(file), "..", "..", "..")
}
