package bench

import (
	"errors"
	"syscall"
)

// taken reports that a port could not be opened because another program has it.
func taken(err error) bool {
	const addressInUse, accessDenied = syscall.Errno(10048), syscall.Errno(10013) // WSAEADDRINUSE, WSAEACCES
	return errors.Is(err, addressInUse) || errors.Is(err, accessDenied)
}
