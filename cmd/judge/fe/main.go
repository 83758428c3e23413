// Fe hands bands to CalculiX: for each design it has gmsh mesh the metal anew, from the
// edges of blank and openings, bends the mesh, loads it as the cases of strength are
// described, and writes a deck of six-node shells (NAME.inp) and what we say of the same
// band (NAME.json). Nothing of our own mesh, element, solver or loads is in the deck.
//
// Usage: go run ./cmd/judge/fe -out DIR [-size MM] [-turn DEGREES] [-only NAME,...] [DESIGN...]
//
// The designs are the gallery, a band of each form, those of testdata/strength, some of
// these in other thicknesses, and the files named.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/pattern/strength"
	"fretband/testdata"
	"fretband/unroll"
)

func main() {
	dir := flag.String("out", ".", "folder for the decks")
	var size sizes
	flag.Float64Var(&size.most, "size", 1.2, "longest side of an element, mm")
	flag.Float64Var(&size.turn, "turn", 9, "degrees that an edge turns by in an element at most")
	only := flag.String("only", "", "names of designs, with commas between them; all if empty")
	flag.Parse()
	designs, err := gather(flag.Args())
	if err != nil {
		fmt.Fprintln(os.Stderr, "fe:", err)
		os.Exit(2)
	}
	for _, d := range designs {
		if *only != "" && !slices.Contains(strings.Split(*only, ","), d.name) {
			continue
		}
		if err := d.hand(*dir, size); err != nil {
			// The judge misses it and says so.
			fmt.Fprintf(os.Stderr, "fe: %s: %v\n", d.name, err)
			os.WriteFile(filepath.Join(*dir, d.name+".failed"), []byte(err.Error()+"\n"), 0o666)
		}
	}
}

type design struct {
	name string
	pattern.Design
	random bool // may be one that can't be loaded
}

// gather lists the designs.
func gather(files []string) ([]design, error) {
	var list []design
	add := func(name string, text []byte, change func(d *pattern.Design)) error {
		d, err := project.Read(bytes.NewReader(text))
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if change != nil {
			change(&d)
		}
		list = append(list, design{name: name, Design: d})
		return nil
	}
	thick := func(mm float64) func(d *pattern.Design) {
		return func(d *pattern.Design) { d.Band.Thickness = unroll.Thickness{MM: mm} }
	}
	known := testdata.Strength()
	for _, name := range slices.Sorted(maps.Keys(known)) {
		if err := add(name, known[name], nil); err != nil {
			return nil, err
		}
	}
	for _, e := range append(testdata.Gallery(), testdata.Forms()...) {
		if err := add(e.Name, e.JSON, nil); err != nil {
			return nil, err
		}
		var other float64
		switch e.Name {
		case "round-bangle", "tapered-cuff":
			other = 0.7
		case "oval-cuff", "ring":
			other = 2
		default:
			continue
		}
		if err := add(fmt.Sprintf("%s-%gmm", e.Name, other), e.JSON, thick(other)); err != nil {
			return nil, err
		}
	}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		if err := add(strings.TrimSuffix(filepath.Base(f), ".json"), text, nil); err != nil {
			return nil, err
		}
		list[len(list)-1].random = true
	}
	return list, nil
}

// A said is what we say of a case, a newton.
type said struct {
	PerN, Peak, P99 float64
	Freedoms        int
	Balance         float64 // the worst of [strength.Balance]
	Seconds         float64
}

// A job is a case of a band, for the judge.
type job struct {
	Name, Case   string
	Openings     int
	Sharp        bool // openings have sharp corners
	Coarse, Fine said
	Nodes        [][3]float64
	Elements     [][6]int // from 0
	Seen         []bool   // of each element: its stress counts
	Loads        []load
	Held         []int
}

type load struct {
	Node  int
	Force vector
}

// hand writes the decks of a design: the first case of its figures and, of a few, others.
func (d *design) hand(dir string, size sizes) error {
	if d.random && d.Temper().ModulusGPa <= 0 {
		d.Wear.ModulusGPa = 80
	}
	s, r, err := check.Lay(d.Design)
	if err != nil || r.Pieces != 1 && d.random {
		fmt.Printf("%s: left out: in %d pieces %v\n", d.name, r.Pieces, err)
		return nil
	}
	r = check.Deepen(s, r)
	var figures [2]*strength.Figures
	var took [2]float64
	for i, coarse := range []bool{true, false} {
		start := time.Now()
		figures[i], err = check.StrengthOf(context.Background(), s, r, check.StrengthAsk{Coarse: coarse, Memory: 2 << 30})
		if err != nil {
			return err
		}
		took[i] = time.Since(start).Seconds()
	}
	// About 3 degrees of a closed band: what it is squeezed by is a mm wide.
	size.most = min(size.most, s.Flat.Length/130)
	m, err := meshed(dir, d.name, s, size)
	if err != nil {
		return err
	}
	for i, c := range figures[1].Cases {
		if i > 0 && !alsoJudged[d.name] {
			break
		}
		of, load, err := m.like(c, r)
		if err != nil {
			return err
		}
		if of == nil {
			continue
		}
		j := job{Name: fmt.Sprintf("%s.%d", d.name, i), Case: c.Case, Openings: r.Openings, Sharp: r.Openings > 0 && d.Rules.CornerMM == 0, Loads: load.list(), Held: m.held(), Seen: m.seen(load.counts)}
		for k, to := range []*said{&j.Coarse, &j.Fine} {
			c := figures[k].Cases[i]
			*to = said{PerN: c.PerN, Peak: c.Result.Peak, P99: c.Result.P99, Freedoms: figures[k].Freedoms, Seconds: took[k]}
			study := figures[k].Study
			theirs, err := of(study)
			if err != nil {
				return err
			}
			if to.Balance, err = balance(study, theirs); err != nil {
				return err
			}
		}
		for _, p := range m.at {
			j.Nodes = append(j.Nodes, p)
		}
		j.Elements = m.elements
		if err := j.write(dir); err != nil {
			return err
		}
		if err := m.deck(filepath.Join(dir, j.Name+".inp"), d.Temper().ModulusGPa*1000, pattern.Poisson(d.Metal.Alloy), &j); err != nil {
			return err
		}
		if c.Case == strength.CatchOn { // one is enough
			break
		}
	}
	fmt.Printf("%s: %d elements\n", d.name, len(m.elements))
	return nil
}

// alsoJudged are the designs of which more than the first case is judged.
var alsoJudged = map[string]bool{"circles": true, "harbour-cuff": true}

func balance(s *strength.Study, c strength.Case) (float64, error) {
	b, err := s.Balance(context.Background(), c)
	return max(b.Whole, b.Nodes, b.Supports), err
}

func (j *job) write(dir string) error {
	text, err := json.Marshal(j)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, j.Name+".json"), text, 0o666)
}
