package disk

import "strings"

// Reserved reports whether Windows keeps a name for a device, whatever ends it
// and whatever its capitals, so that no file or folder can be called so
// (Microsoft, "Naming Files, Paths, and Namespaces").
func Reserved(name string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	switch stem = strings.TrimRight(stem, " "); stem {
	case "con", "prn", "aux", "nul":
		return true
	}
	port, is := strings.CutPrefix(stem, "com")
	if !is {
		port, is = strings.CutPrefix(stem, "lpt")
	}
	if !is {
		return false
	}
	switch port {
	case "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "¹", "²", "³":
		return true
	}
	return false
}
