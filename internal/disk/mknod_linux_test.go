package disk

import "syscall"

func mknod(path string, mode uint32, dev int) error { return syscall.Mknod(path, mode, dev) }
