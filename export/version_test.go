package export

import (
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestThereIsOneVersion(t *testing.T) {
	toml, err := os.ReadFile("../FyneApp.toml")
	require.NoError(t, err)
	assert.Equal(t, Version, regexp.MustCompile(`(?m)^\s*Version = "(.*)"`).FindStringSubmatch(string(toml))[1])
	assert.Contains(t, Built(), Version)
}
