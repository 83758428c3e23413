package app

import (
	"bytes"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

func TestVariantsAreKeptTakenUpAndDropped(t *testing.T) {
	d := gallery(t)
	first := d.Rules.BridgeMM
	require.NoError(t, KeepVariant(&d, VariantName(d)))
	require.ErrorContains(t, KeepVariant(&d, d.Variants[0].Name), "already")
	require.Error(t, KeepVariant(&d, "  "))
	d.Rules.BridgeMM = 2
	require.Equal(t, first, d.Variants[0].Rules.BridgeMM, "they share no memory")

	name := d.Name
	TakeVariant(&d, 0)
	require.Equal(t, name+" 2", d.Name)
	require.Equal(t, first, d.Rules.BridgeMM)
	require.Len(t, d.Variants, 1)
	require.Equal(t, 2.0, d.Variants[0].Rules.BridgeMM)
	require.Empty(t, d.Variants[0].Variants)
	require.NoError(t, d.Check())

	// They are kept in the file.
	var b bytes.Buffer
	require.NoError(t, project.Write(&b, d))
	back, err := project.Read(&b)
	require.NoError(t, err)
	require.True(t, Equal(d, back))

	TakeVariant(&d, 0)
	require.Equal(t, name, d.Name)
	DropVariant(&d, 0)
	require.Empty(t, d.Variants)
	DropVariant(&d, 0)
	TakeVariant(&d, 3)
	require.Equal(t, name, d.Name)

	for len(d.Variants) < pattern.MaxVariants {
		require.NoError(t, KeepVariant(&d, VariantName(d)))
	}
	require.ErrorContains(t, KeepVariant(&d, "one more"), "the most")
}

func TestDifferencesAreToldInWords(t *testing.T) {
	a := gallery(t)
	b := Clone(a)
	require.Empty(t, Differences(a, b, 3))
	b.Name = "Other"
	b.Rules.BridgeMM = 1.55
	b.Fields[0].Rows++
	require.Equal(t, "Bridge 1.2 to 1.55, Rows 3 to 4", Differences(a, b, 3))
	b.Band.WidthMM++
	b.Metal.Alloy = "copper"
	b.Fields = append(b.Fields, b.Fields[0])
	require.Contains(t, Differences(a, b, 3), "and 1 more")
}
