//go:build !race

package main

const racing = false
