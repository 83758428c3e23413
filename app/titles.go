package app

import "fretband/pattern"

// TitleOf returns what the controls call the field of that path, the path itself
// where they have no name for it.
func TitleOf(d pattern.Design, path string) string {
	if title, ok := fieldTitleOf(d, path); ok {
		return title
	}
	if n, ok := NumberAt(d, path); ok {
		return n.Title
	}
	lists := [][]Choice{BandChoices(), FormChoices(), {AlloyChoice(), ProcessChoice(), TemperChoice()}}
	for i := range d.Reserves {
		lists = append(lists, []Choice{ReserveShape(i)})
	}
	for i := range d.Marks {
		lists = append(lists, []Choice{MarkText(i), MarkPath(i), MarkKeep(i)})
	}
	for i := range d.Band.Inside.Profile {
		lists = append(lists, []Choice{PieceChoice(i)})
	}
	for _, list := range lists {
		for _, c := range list {
			if c.Path == path {
				return c.Title
			}
		}
	}
	for _, e := range Edges() {
		if e.Path() == path {
			return e.Title()
		}
	}
	if path == "band.inside.profile" {
		return "The profile"
	}
	if path == "band.thickness.bs_gauge" || path == "band.thickness.imperial_gauge" || path == "band.thickness" {
		return "Thickness"
	}
	return path
}
