package pattern

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNoTextSaysMinusNothing(t *testing.T) {
	below := math.Copysign(0, -1)
	assert.Equal(t, "0.00 mm", Say("%.2f mm", -0.004))
	assert.Equal(t, "-0.01 mm", Say("%.2f mm", -0.0051))
	assert.Equal(t, "0 and 0 and 0", Say("%g and %v and %.0f", below, below, -0.3))
	assert.Equal(t, "+0.0, -0.1", Say("%+.1f, %+.1f", -0.01, -0.06))
	assert.Equal(t, "[  0.00]", Say("[%6.2f]", -1e-9))
	assert.Equal(t, "0.000", Say("%.*f", 3, -1e-9))
	assert.Equal(t, "-0 named -0.00", Say("%s named %s", "-0", "-0.00"), "texts of the user's stay")
	args := []any{-0.001}
	Say("%.1f", args...)
	assert.Equal(t, []any{-0.001}, args)
}
