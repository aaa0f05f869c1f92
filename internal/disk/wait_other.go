//go:build !unix

package disk

// dontWait is nothing where pipes do not lie among files.
const dontWait = 0
