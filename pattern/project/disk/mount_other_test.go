//go:build !linux

package disk

import "errors"

func mountTmpfs(string, int) error { return errors.New("not on this system") }

func unmount(string) error { return nil }
