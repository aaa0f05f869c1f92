//go:build !linux

package press

import "os"

// Exchange puts the folder fresh in the place of old, after which fresh names
// what old was. Where there is no old one it is a plain rename.
func Exchange(fresh, old string, had bool) error {
	if !had {
		return os.Rename(fresh, old)
	}
	return exchangeByTwo(fresh, old)
}
