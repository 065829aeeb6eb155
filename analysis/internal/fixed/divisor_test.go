package fixed

import "testing"

// divisor divides as / does.
func FuzzDivisor(f *testing.F) {
	f.Add(uint64(1), uint64(1))
	f.Add(uint64(1<<63-1), uint64(1<<63))
	f.Add(uint64(2*65535*2073600), uint64(2073600))
	f.Add(uint64(2*2073599), uint64(2073600))
	f.Fuzz(func(t *testing.T, n, by uint64) {
		n >>= 1
		if by = max(by, 1); NewDivisor(by).Of(n) != n/by {
			t.Errorf("%d / %d = %d", n, by, NewDivisor(by).Of(n))
		}
	})
}
