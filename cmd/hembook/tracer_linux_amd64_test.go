package main

import "syscall"

// halve has a write that is about to be made write half as much, as a write is
// cut short when its program is killed in the middle. False where there is no half.
func halve(pid int) bool {
	var regs syscall.PtraceRegs
	if syscall.PtraceGetRegs(pid, &regs) != nil || regs.Rdx < 2 {
		return false
	}
	regs.Rdx /= 2 // the third argument: x86-64 psABI, A.2.1
	return syscall.PtraceSetRegs(pid, &regs) == nil
}
