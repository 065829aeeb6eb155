package analysis

import "testing"

func BenchmarkReduceAndPaint364(b *testing.B) { benchmarkViews(b, 364, 282) }

func BenchmarkReduceAndPaint760(b *testing.B) { benchmarkViews(b, 760, 590) }

func benchmarkViews(b *testing.B, width, height int) {
	p := painting(1920, 1080, BGRX)
	look := Look{Reading: Read(p, Options{})}
	r := NewReducer()
	defer r.Close()
	dst := make([]byte, pixelBytes*width*height)
	for _, v := range Views() {
		b.Run(v.Key, func(b *testing.B) {
			v.Paint(dst, r.Reduce(p, width, height, nil), look)
			b.ReportAllocs()
			for b.Loop() {
				v.Paint(dst, r.Reduce(p, width, height, nil), look)
			}
		})
	}
}
