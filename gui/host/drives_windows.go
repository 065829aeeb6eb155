package host

import "golang.org/x/sys/windows"

// drives are the topmost folders of the drives that there are, whether or not anything is in them.
func drives() (list []string) {
	there, _ := windows.GetLogicalDrives() // none, where Windows doesn't say
	for i := range 26 {
		if there&(1<<i) != 0 {
			list = append(list, string(rune('A'+i))+`:\`)
		}
	}
	return list
}
