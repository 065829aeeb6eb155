#!/bin/sh
# install.sh installs Tonedesk for one user, into ~/.local; install.sh remove takes it away
# again. Settings and stills stay.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
to="$HOME/.local"
doc="$to/share/doc/tonedesk"

refresh() { # so that menus and file managers know at once; they find out by themselves later
	update-desktop-database -q "$to/share/applications" 2>/dev/null || true
	gtk-update-icon-cache -q -t "$to/share/icons/hicolor" 2>/dev/null || true
}

case "${1:-install}" in
install)
	cd "$here"
	find bin share -type f | sort | while read -r file; do
		mkdir -p "$to/$(dirname "$file")"
		# A new file in place of the old one, which may be running.
		cp "$file" "$to/$file.new"
		mv "$to/$file.new" "$to/$file"
		echo "$file"
	done >"$here/.files"
	mv "$here/.files" "$doc/files"
	cp install.sh "$doc/install.sh"
	# Menus start programs without the shell's PATH.
	desk=$(printf '%s' "$to/bin/desk" | sed 's/[\\&|]/\\&/g')
	sed "s|^Exec=desk|Exec=\"$desk\"|; /^TryExec=/d" share/applications/app.tonedesk.desktop >"$to/share/applications/app.tonedesk.desktop"
	refresh
	echo "Tonedesk is installed as $to/bin/desk, and in the menu. To take it away again: sh $doc/install.sh remove"
	;;
remove)
	if [ ! -e "$doc/files" ]; then
		echo "Can't remove Tonedesk: it was not installed by this script into $to; nothing was changed." >&2
		exit 1
	fi
	while read -r file; do
		rm -f "$to/$file"
	done <"$doc/files"
	rm -f "$doc/files" "$doc/install.sh"
	rmdir "$doc" 2>/dev/null || true
	refresh
	echo "Tonedesk is removed. Settings and stills are still there."
	;;
*)
	echo "Use it as install.sh, or install.sh remove." >&2
	exit 2
	;;
esac
