package cli

import (
	"errors"
	"runtime"
	"syscall"
	"unsafe"
)

// renameat2 returns the number of the call in the kernel's table of calls, which
// package syscall has for some architectures only; 0 for one without.
func renameat2() uintptr {
	switch runtime.GOARCH {
	case "amd64":
		return 316
	case "386":
		return 353
	case "arm64", "riscv64", "loong64":
		return 276
	}
	return 0
}

// inOneStep swaps two names in one step, so that there is no moment without either.
func inOneStep(a, b string) error {
	const fromHere = -100 // AT_FDCWD: a name that is not absolute begins in the working folder
	const swapped = 2     // RENAME_EXCHANGE
	here := fromHere
	from, errFrom := syscall.BytePtrFromString(a)
	to, errTo := syscall.BytePtrFromString(b)
	if err := errors.Join(errFrom, errTo); err != nil {
		return err
	}
	call := renameat2()
	if call == 0 {
		return errors.ErrUnsupported
	}
	_, _, failed := syscall.Syscall6(call, uintptr(here), uintptr(unsafe.Pointer(from)),
		uintptr(here), uintptr(unsafe.Pointer(to)), swapped, 0)
	switch failed {
	case 0:
		return nil
	case syscall.ENOSYS, syscall.EINVAL: // an old kernel, or a file system that cannot
		return errors.ErrUnsupported
	}
	return failed
}
