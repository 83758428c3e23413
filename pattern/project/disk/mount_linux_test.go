package disk

import (
	"fmt"
	"syscall"
)

func mountTmpfs(dir string, bytes int) error {
	return syscall.Mount("tmpfs", dir, "tmpfs", 0, fmt.Sprintf("size=%d", bytes))
}

func unmount(dir string) error { return syscall.Unmount(dir, 0) }
