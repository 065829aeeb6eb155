package wording

import "golang.org/x/sys/windows"

// systemReasons are what errors of this system alone mean. Those of a full disk and the like have
// other numbers here than those by which Go compares them.
var systemReasons = []reason{
	{windows.ERROR_SHARING_VIOLATION, "another program has it open", "wait until that is done with it, or close it there"},
	{windows.ERROR_LOCK_VIOLATION, "another program has it open", "wait until that is done with it, or close it there"},
	{windows.ERROR_DISK_FULL, "the disk is full", "make room and try again"},
	{windows.ERROR_HANDLE_DISK_FULL, "the disk is full", "make room and try again"},
	{windows.ERROR_WRITE_PROTECT, "the disk can only be read", "choose a disk that can be written"},
	{windows.ERROR_NOT_READY, "there is nothing in that drive", "put the disk in, or choose another"},
	{windows.ERROR_INVALID_NAME, "no file can have such a name", `choose one without \ / : * ? " < > and |`},
	{windows.ERROR_BAD_PATHNAME, "no file can have such a name", `choose one without \ / : * ? " < > and |`},
	{windows.ERROR_DIRECTORY, "a part of its path is a file, not a folder", "check the name and the folder"},
	{windows.ERROR_FILENAME_EXCED_RANGE, "its name is longer than a name can be", "check it, or give the file a shorter one"},
	{windows.ERROR_CANT_RESOLVE_FILENAME, "it is a link that leads back to itself", "name the file that is meant"},
	{windows.ERROR_BAD_NET_NAME, "the computer or folder in the network does not answer", "check its name and the network"},
}
