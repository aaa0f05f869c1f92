package main

import (
	"errors"
	"io"
	"os"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"unsafe"

	"golang.org/x/sys/unix"
)

// A stop is where a program is killed: as it is about to make its n-th change
// of the disk, counted from 1 over all its threads, or half way through that
// one where it is a write. The zero stop lets it run to its end.
type stop struct {
	n    int
	half bool
}

// A traced program is one whose every change of the disk is counted by the
// system's own tracer (ptrace(2)), whoever makes it: our code, a library or
// the runtime. Telling somebody something, on its streams, counts too.
type traced struct {
	out  *os.File // what it says, on both streams
	done chan traceEnd
	pid  int
}

// A traceEnd says how a traced program ended.
type traceEnd struct {
	changes int    // that it made, or was about to
	at      string // what it was killed at; empty where it came to its end
	code    int    // its exit status there
	err     error
}

// startTraced runs a program under the tracer. from is asked before each change
// from which on they are counted; nil for all.
func startTraced(t *testing.T, at stop, from func() bool, program string, args ...string) *traced {
	t.Helper()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	p := &traced{out: r, done: make(chan traceEnd, 1)}
	started := make(chan error, 1)
	go func() {
		runtime.LockOSThread() // a tracer is a thread; it ends with this
		proc, err := os.StartProcess(program, append([]string{"hembook"}, args...), &os.ProcAttr{
			Files: []*os.File{nil, w, w},
			Sys:   &syscall.SysProcAttr{Ptrace: true, Setpgid: true},
		})
		w.Close()
		if err != nil {
			started <- err
			return
		}
		p.pid = proc.Pid
		proc.Release()
		started <- nil
		p.done <- follow(p.pid, at, from)
	}()
	if err := <-started; errors.Is(err, syscall.EPERM) || errors.Is(err, syscall.ENOSYS) {
		t.Skip("no program may be traced here: ", err)
	} else if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return p
}

// kill ends the program at once.
func (p *traced) kill() { syscall.Kill(p.pid, syscall.SIGKILL) }

// runTraced runs a program to its end, or its stop.
func runTraced(t *testing.T, at stop, program string, args ...string) (traceEnd, string) {
	t.Helper()
	p := startTraced(t, at, nil, program, args...)
	said, _ := io.ReadAll(p.out)
	end := <-p.done
	if end.err != nil {
		t.Fatal(end.err)
	}
	return end, string(said)
}

const traceOptions = unix.PTRACE_O_TRACESYSGOOD | unix.PTRACE_O_TRACECLONE | unix.PTRACE_O_TRACEFORK |
	unix.PTRACE_O_TRACEVFORK | unix.PTRACE_O_TRACEEXEC | unix.PTRACE_O_EXITKILL

// follow lets a program go from call to call.
func follow(pid int, at stop, from func() bool) (end traceEnd) {
	var ws syscall.WaitStatus
	if _, err := syscall.Wait4(pid, &ws, syscall.WALL, nil); err != nil {
		return traceEnd{err: err}
	}
	if err := syscall.PtraceSetOptions(pid, traceOptions); err != nil {
		syscall.Kill(pid, syscall.SIGKILL)
		return traceEnd{err: err}
	}
	known, halved := map[int]bool{pid: true}, 0
	syscall.PtraceSyscall(pid, 0)
	for {
		id, err := syscall.Wait4(-pid, &ws, syscall.WALL, nil)
		switch {
		case err == syscall.EINTR:
			continue
		case err != nil:
			return traceEnd{err: err}
		case ws.Exited() || ws.Signaled():
			if id == pid {
				end.code = ws.ExitStatus()
				return end
			}
			continue
		}
		sig := ws.StopSignal()
		switch {
		case sig == syscall.SIGTRAP|0x80:
			sig = 0
			call, entry, ok := callOf(id)
			if !ok {
				break
			}
			if !entry {
				if id == halved {
					syscall.Kill(pid, syscall.SIGKILL)
				}
				break
			}
			name := changeOf(id, call)
			if name == "" || end.at != "" || from != nil && !from() {
				break
			}
			if end.changes++; end.changes != at.n {
				break
			}
			if !at.half {
				end.at = name
				syscall.Kill(pid, syscall.SIGKILL)
			} else if strings.HasPrefix(name, "write /") && halve(id) {
				end.at, halved = "half of "+name, id
			}
		case sig == syscall.SIGTRAP, sig == syscall.SIGSTOP && !known[id]:
			sig = 0
		}
		known[id] = true
		syscall.PtraceSyscall(id, int(sig))
	}
}

// A call is a system call as the tracer tells of it: the number of struct
// ptrace_syscall_info and its first arguments (ptrace(2)).
type call struct {
	nr   uint64
	args [6]uint64
}

func callOf(pid int) (c call, entry, ok bool) {
	var info struct {
		op   uint8
		_    [3]uint8
		arch uint32
		_    [2]uint64
		call call
		_    [32]byte
	}
	const opEntry = 1
	_, _, e := syscall.Syscall6(syscall.SYS_PTRACE, unix.PTRACE_GET_SYSCALL_INFO, uintptr(pid), unsafe.Sizeof(info), uintptr(unsafe.Pointer(&info)), 0, 0)
	return info.call, info.op == opEntry, e == 0
}

// changes are the calls by which a program changes files, with what they are
// called here. Those that take an open file tell it first.
var changes = map[uint64]string{
	unix.SYS_WRITE: "write", unix.SYS_PWRITE64: "write", unix.SYS_WRITEV: "write", unix.SYS_PWRITEV: "write", unix.SYS_PWRITEV2: "write",
	unix.SYS_SENDFILE: "write", unix.SYS_SPLICE: "splice", unix.SYS_COPY_FILE_RANGE: "copy", unix.SYS_FALLOCATE: "allocate",
	unix.SYS_FSYNC: "sync", unix.SYS_FDATASYNC: "sync", unix.SYS_FTRUNCATE: "truncate", unix.SYS_TRUNCATE: "truncate",
	unix.SYS_FCHMOD: "mode", unix.SYS_FCHMODAT: "mode", unix.SYS_FCHOWN: "owner", unix.SYS_FCHOWNAT: "owner", unix.SYS_UTIMENSAT: "time",
	unix.SYS_OPENAT: "open", unix.SYS_OPENAT2: "open", unix.SYS_MKDIRAT: "make folder", unix.SYS_MKNODAT: "make",
	unix.SYS_RENAMEAT: "rename", unix.SYS_RENAMEAT2: "rename", unix.SYS_LINKAT: "link", unix.SYS_SYMLINKAT: "link", unix.SYS_UNLINKAT: "remove",
	unix.SYS_IO_URING_SETUP: "ring",
}

// changeOf says what a call changes; empty where it changes nothing.
func changeOf(pid int, c call) string {
	name := changes[c.nr]
	switch name {
	case "":
		return ""
	case "write", "sync":
		file, err := os.Readlink("/proc/" + strconv.Itoa(pid) + "/fd/" + strconv.FormatUint(c.args[0], 10))
		switch {
		case c.nr == unix.SYS_WRITE && (c.args[0] == 1 || c.args[0] == 2):
			return "say"
		case err != nil || !strings.HasPrefix(file, "/") || strings.HasPrefix(file, "/dev/"):
			return "" // a pipe, a connection, the runtime's own
		}
		return name + " " + file
	case "open":
		if c.nr == unix.SYS_OPENAT && c.args[2]&(unix.O_CREAT|unix.O_TRUNC) == 0 {
			return ""
		}
		return "make " + wordsAt(pid, c.args[1])
	case "rename", "link":
		return name + " " + wordsAt(pid, c.args[1]) + " to " + wordsAt(pid, c.args[3])
	case "make folder", "remove":
		return name + " " + wordsAt(pid, c.args[1])
	}
	return name
}

// wordsAt reads a name out of a stopped program.
func wordsAt(pid int, at uint64) string {
	out := make([]byte, 256)
	n, _ := syscall.PtracePeekData(pid, uintptr(at), out)
	text, _, _ := strings.Cut(string(out[:max(n, 0)]), "\x00")
	return text
}
