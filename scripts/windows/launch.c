/* launch.exe PROGRAM ARGUMENT... runs a program under Wine for a test: with the user's folders of
   Windows where the test has them (Wine itself puts them into its own), and it ends no later than
   this one. With TEST_DETACHED set it gets neither a terminal nor streams, as Windows starts a program
   with a window from a terminal. The exit code is the program's. */
#include <windows.h>
#include <wchar.h>

/* after returns what comes after the first word of a command line. */
static wchar_t *after(wchar_t *line) {
	int quoted = 0;
	for (; *line && (quoted || *line != L' '); line++)
		if (*line == L'"') quoted = !quoted;
	while (*line == L' ') line++;
	return line;
}

static void give(const wchar_t *name, const wchar_t *from) {
	static wchar_t value[32767];
	if (GetEnvironmentVariableW(from, value, 32767)) SetEnvironmentVariableW(name, value);
}

int wmain(void) {
	JOBOBJECT_EXTENDED_LIMIT_INFORMATION limits = {0};
	STARTUPINFOW start = {0};
	PROCESS_INFORMATION made = {0};
	DWORD code = 1, detached = 0;
	HANDLE job = CreateJobObjectW(NULL, NULL);

	limits.BasicLimitInformation.LimitFlags = JOB_OBJECT_LIMIT_KILL_ON_JOB_CLOSE;
	SetInformationJobObject(job, JobObjectExtendedLimitInformation, &limits, sizeof limits);
	give(L"APPDATA", L"TEST_APPDATA");
	give(L"LOCALAPPDATA", L"TEST_LOCALAPPDATA");
	give(L"USERPROFILE", L"TEST_USERPROFILE");
	start.cb = sizeof start;
	if (GetEnvironmentVariableW(L"TEST_DETACHED", NULL, 0)) detached = DETACHED_PROCESS;
	start.dwFlags = STARTF_USESTDHANDLES;
	if (!detached) {
		start.hStdInput = GetStdHandle(STD_INPUT_HANDLE);
		start.hStdOutput = GetStdHandle(STD_OUTPUT_HANDLE);
		start.hStdError = GetStdHandle(STD_ERROR_HANDLE);
	}
	if (!CreateProcessW(NULL, after(GetCommandLineW()), NULL, NULL, TRUE, detached, NULL, NULL, &start, &made)) return 126;
	AssignProcessToJobObject(job, made.hProcess);
	WaitForSingleObject(made.hProcess, INFINITE);
	GetExitCodeProcess(made.hProcess, &code);
	return code;
}
