/* bcryptprimitives.dll for Debian 12's Wine, which has none, and without which no program of Go
   starts: its one call that Go makes, by the one that was there before. For tests only. */
#include <windows.h>

BOOLEAN NTAPI SystemFunction036(void *, ULONG);

BOOL WINAPI DllMain(HINSTANCE dll, DWORD why, void *nothing) { return TRUE; }

__declspec(dllexport) BOOL WINAPI ProcessPrng(BYTE *to, SIZE_T bytes) {
	return SystemFunction036(to, (ULONG)bytes);
}
