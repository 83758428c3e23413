package plane

// Halve narrows an interval by halving it, so many times or until no number lies between
// its ends: low holds for its lower part and not for its upper one.
func Halve(lo, hi float64, times int, low func(float64) bool) (float64, float64) {
	for range times {
		mid := (lo + hi) / 2
		if mid == lo || mid == hi {
			break
		}
		if low(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo, hi
}
