package main

import (
	"unsafe"

	"golang.org/x/sys/windows"
)

var getConsoleProcessList = windows.NewLazySystemDLL("kernel32.dll").NewProc("GetConsoleProcessList")

// aloneOnConsole tells that no other program is on this one's console, so that
// it was made for it and closes with it: nobody typed its name in a shell.
func aloneOnConsole() bool {
	if getConsoleProcessList.Find() != nil {
		return false
	}
	var processes [2]uint32
	n, _, _ := getConsoleProcessList.Call(uintptr(unsafe.Pointer(&processes[0])), uintptr(len(processes)))
	return n == 1
}

// understandsColour asks the console to take escape sequences as a terminal
// does, and tells whether it will.
func understandsColour(fd uintptr) bool {
	var mode uint32
	console := windows.Handle(fd)
	return windows.GetConsoleMode(console, &mode) == nil &&
		windows.SetConsoleMode(console, mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING) == nil
}
