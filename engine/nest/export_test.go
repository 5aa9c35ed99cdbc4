package nest

// The jobs of the benchmarks, for those outside the package.
var (
	CartJob   = cartJob
	EqualsJob = equalsJob
)
