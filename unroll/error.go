package unroll

// FieldError says which number of a design can't be used and what may stand
// there instead. Path names the field as the design file does: "band.gap_mm".
type FieldError struct {
	Path string
	Msg  string
}

func (e *FieldError) Error() string { return e.Path + ": " + e.Msg }
