package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll/plane"
)

// standing is a cuff of the gallery with sharp ends that the maker accepts.
func standing(t *testing.T) (*pattern.Sheet, *check.Report) {
	t.Helper()
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Band.EndCornerMM = 0
	d.Rules.Process, d.Work = "saw", pattern.Work{CutMMMin: 15, OpeningMin: 2, BladeMM: 400, HourPrice: 60}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	at := check.Run(s).Findings
	for _, f := range at {
		if f.Kind == check.KindEnds {
			s.Design.Accepted = []pattern.Accepted{{Finding: "ends", At: pattern.Spot{XMM: f.At[0].X, YMM: f.At[0].Y}, Reason: "a bezel\ncovers them"}}
		}
	}
	return s, check.All(s)
}

func TestAReasonTravelsToReportAndFiles(t *testing.T) {
	s, r := standing(t)
	var text, js bytes.Buffer
	require.NoError(t, TextInFull(&text, s, r))
	require.NoError(t, JSON(&js, s, r))
	require.Contains(t, text.String(), "Accepted by the maker: a bezel covers them")
	require.Contains(t, text.String(), "your own rate")
	require.Contains(t, text.String(), "pilot holes")
	all := strings.Join(factsOf(s, r), "\n")
	require.Contains(t, all, "Caution, accepted by the maker: The corners of the cuff's ends are not rounded. Reason: a bezel covers them")
	var j struct {
		Findings []struct {
			Check, Accepted string
			Fixes           []string
		}
		Work struct {
			Process  string
			CutMin   float64 `json:"cutting_min"`
			StartMin float64 `json:"starting_min"`
			Cost     float64 `json:"work_cost"`
			Blades   int
			Pilots   []struct{ Count int }
		}
		CutLength float64 `json:"cut_length_mm"`
		Openings  int
	}
	require.NoError(t, json.Unmarshal(js.Bytes(), &j))
	found := false
	for _, f := range j.Findings {
		if f.Check == "ends" {
			found = true
			require.Equal(t, "a bezel\ncovers them", f.Accepted)
			require.NotEmpty(t, f.Fixes)
		}
	}
	require.True(t, found)
	// By hand: length by 15 mm a minute, two minutes an opening, 60 an hour is one a minute.
	require.InDelta(t, j.CutLength/15, j.Work.CutMin, 1e-9)
	require.InDelta(t, 2*float64(j.Openings), j.Work.StartMin, 1e-9)
	require.InDelta(t, j.Work.CutMin+j.Work.StartMin, j.Work.Cost, 1e-9)
	require.Equal(t, "saw", j.Work.Process)
	sum := 0
	for _, p := range j.Work.Pilots {
		sum += p.Count
	}
	require.Equal(t, j.Openings, sum)
}

func TestAHundredPlacesAreListedAndAllAreCounted(t *testing.T) {
	s, r := standing(t)
	many := make([]plane.Point, 20000)
	r.Findings = []check.Finding{{Kind: check.KindLeftSolid, At: many}, {Kind: check.KindGap}}
	var js bytes.Buffer
	require.NoError(t, JSON(&js, s, r))
	var j struct {
		Findings []struct {
			At     [][2]float64
			Places int
		}
	}
	require.NoError(t, json.Unmarshal(js.Bytes(), &j))
	require.Len(t, j.Findings[0].At, 100)
	require.Equal(t, 20000, j.Findings[0].Places)
	require.Empty(t, j.Findings[1].At)
}
