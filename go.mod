module fretband

go 1.26
