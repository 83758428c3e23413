package check

import (
	"context"
	"errors"
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/pattern/strength"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// StrengthMemory is how much memory the solve of a band's strength takes at most unless
// more is allowed, bytes.
const StrengthMemory = 600 << 20

// nodeBytes is what the solve takes for a node of the mesh at least, bytes.
const nodeBytes = 6000

// HandForce is what a hand does to a piece of jewellery at its roughest, N: 20 to 50
// (common practice).
const HandForce = 50

// ErrNoModulus says that a metal's Young's modulus is not known.
var ErrNoModulus = errors.New("no Young's modulus of this metal is known: give the one from your supplier's sheet as wear.modulus_gpa")

// StrengthAsk says how strength is to be found. The zero value is what is usual.
type StrengthAsk struct {
	Coarse bool           // for a picture that follows a drag
	Memory int64          // bytes at most; 0 is StrengthMemory
	Nodes  int            // of the mesh at most; 0 is what the memory allows
	Pushes []plane.Point  // where a hand pushes, on the blank
	Tips   []strength.Tip // besides those of the tongues
	OpenMM float64        // by how much a cuff is opened; 0 is as the design has it
	// Alone leaves out the figures of the unpierced band: they are not told.
	Alone bool
}

// Unasked is how strength is found for reports and papers that did not ask for it by
// itself: by a coarse mesh of about a second's work at most.
func Unasked() StrengthAsk { return StrengthAsk{Coarse: true, Nodes: 20000} }

// StrengthOf solves the pierced and bent band as a thin shell: how stiff it is, where it
// yields first and what that takes. Tongues are pulled at if the report is deep ([Deepen]).
// Errors say what can't be solved and where; they are no faults of the design.
func StrengthOf(ctx context.Context, s *pattern.Sheet, r *Report, ask StrengthAsk) (*strength.Figures, error) {
	if r.Pieces != 1 {
		return nil, fmt.Errorf("the metal is in %d pieces: only one piece can be loaded", r.Pieces)
	}
	temper := s.Design.Temper()
	if temper.ModulusGPa <= 0 {
		return nil, ErrNoModulus
	}
	metal := strength.Metal{Flat: s.Flat}
	for i := range s.Openings {
		metal.Openings = append(metal.Openings, s.Openings[i].Loop)
	}
	fine := strength.Fine()
	if ask.Coarse {
		fine = strength.Coarse()
	}
	memory := ask.Memory
	if memory == 0 {
		memory = StrengthMemory
	}
	// No mesh is begun that memory would not hold.
	fine.Most = int(memory / nodeBytes)
	if ask.Nodes > 0 {
		fine.Most = min(fine.Most, ask.Nodes)
	}
	mat := strength.Material{Young: temper.ModulusGPa * 1000, Poisson: pattern.Poisson(s.Design.Metal.Alloy)}
	body, err := strength.NewStudy(ctx, metal, mat, fine, memory)
	if errors.Is(err, strength.ErrTooMany) {
		return nil, fmt.Errorf("%w, or allow more than %d MB of memory", err, memory/1e6)
	}
	if err != nil {
		return nil, err
	}
	var plain *strength.Study
	if !ask.Alone {
		if plain, err = strength.NewStudy(ctx, strength.Metal{Flat: s.Flat}, mat, unpierced(s.Flat), memory); err != nil {
			return nil, err
		}
	}
	asked := strength.Asked{ProofMPa: temper.ProofMPa, HandN: HandForce, Pushes: ask.Pushes, Tips: append(tipsOf(r), ask.Tips...)}
	if !s.Flat.Closed() {
		asked.GapMM = gapOf(s.Flat)
		asked.OpenMM = openingOf(s, asked.GapMM)
		if ask.OpenMM > 0 {
			asked.OpenMM = ask.OpenMM
		}
	}
	f, err := body.Of(ctx, asked, plain)
	if err != nil {
		return nil, err
	}
	f.Coarse = ask.Coarse
	return f, nil
}

// unpierced is how fine a band without openings is meshed: nothing is small there but
// its radius.
func unpierced(f unroll.Flat) strength.Fineness {
	fine := strength.Coarse()
	fine.Size = math.Min(2, math.Max(f.LeastRadius()/12, fine.Size))
	return fine
}

// mostTips is how many kinds of tongues are pulled at: those longest beside their roots.
const mostTips = 8

// tipsOf lists one of each kind of tongue, longest beside its root first, as the deep
// report does.
func tipsOf(r *Report) []strength.Tip {
	type kind struct{ length, root float64 }
	seen := map[kind]bool{}
	var out []strength.Tip
	if r.Deep == nil {
		return nil
	}
	for _, t := range r.Deep.Tongues {
		k := kind{math.Round(1000 * t.Length), math.Round(1000 * t.Root)}
		if seen[k] || len(out) == mostTips {
			continue
		}
		seen[k] = true
		out = append(out, strength.Tip{At: t.Tip, Root: t.RootAt, Length: t.Length})
	}
	return out
}
