#!/usr/bin/env bash
# shots.sh PROGRAM FOLDER makes the README's pictures: the window beside a painting, its pages,
# its themes, wide, those of the example, and a critique sheet.
set -euo pipefail
cd "$(dirname "$0")/.."
bin=$1
to=$2
mkdir -p "$to"

# exact FILE FROM writes a picture as it is; small FILE FROM with few colours, which takes a third
# of the room and lets a sky show its steps where it is seen large.
exact() { convert "$2" -strip -define png:compression-level=9 "$1"; }
small() { convert "$2" +dither -colors 255 -strip -define png:compression-level=9 "PNG8:$1"; }

unset DISPLAY WAYLAND_DISPLAY
export TZ=UTC # times stand on the sheet
scripts/run.sh "$bin"
exact "$to/window.png" build/desk.png

. scripts/virtual.sh
. scripts/window.sh
virtual_screen 1300x840
faces='"width": 380, "height": 760'
skin=(492 300 558 500) # in light and in shadow
stills="$XDG_DATA_HOME/tonedesk/stills"

# photograph NAME PICTURE SETTINGS [X Y...] takes a picture of the window on that picture, with
# spots. What is looked for in the background has come once the window stays as it is.
photograph() {
	open_desk "$bin" "$3" "$2"
	pick "${@:4}"
	case $3 in *Structure*) says '"families":\[\{' ;; esac
	take "$work/$1.png"
	close_desk
}

# keep PICTURE NAME DAY keeps a still with a name and a day, so that pictures of it are the same
# each time.
keep() {
	local kept
	open_desk "$bin" "$faces, \"page\": \"Stills\"" "$1"
	press ctrl+s
	shows '"message":"Kept as a still"'
	close_desk
	kept=$(find "$stills" -mindepth 1 -maxdepth 1 ! -name '.*' ! -name '*-aaaaaaaaaa' -name '*-*-*')
	sed -i -E "s/\"name\": \"\"/\"name\": \"$2\"/; s/\"time\": \"[^\"]*\"/\"time\": \"${3:0:4}-${3:4:2}-${3:6:2}T10:30:00Z\"/" "$kept/still.json"
	mv "$kept" "$stills/$3-103000-aaaaaaaaaa"
}

# note NAME TOOL X Y X Y draws a note with a tool, by its place in the row, counted from 1.
note() {
	notes=$((notes + 1))
	click_in "$(tool_at "$2")" 500 500
	says "\"tool\":\"$1\""
	draw "${@:3}"
	says "\"kinds\":\\[(\"[a-z]+\",?){$notes}\\]"
}

echo "The example."
photograph 1 assets/example/1-flats.png "$faces, \"view\": \"colour\"" 533 190 90 825
photograph 2 assets/example/2-too-dark.png "$faces, \"view\": \"colour\"" "${skin[@]}"
photograph 3 assets/example/3-two-tones.png "$faces" "${skin[@]}"
photograph 4 assets/example/3-two-tones.png "$faces, \"view\": \"colour\", \"page\": \"Colours\"" "${skin[@]:0:2}"
photograph 5 assets/example/4-rich.png "$faces, \"view\": \"colour\", \"page\": \"Structure\""
for i in 1 2 3 4 5; do small "$to/example-$i.png" "$work/$i.png"; done

echo "The wide window."
photograph wide assets/demo.png '"width": 1100, "height": 760' "${skin[@]}"
exact "$to/wide.png" "$work/wide.png"

echo "Stills, and notes on one."
keep assets/example/1-flats.png "Flats" 20260104
keep assets/example/2-too-dark.png "Too dark" 20260105
keep assets/example/3-two-tones.png "Two tones" 20260106
open_desk "$bin" "$faces, \"view\": \"colour\"" assets/example/4-rich.png
press d # with the newest still
says '"sentence":"No change in lightness"'
take "$work/6.png"
small "$to/example-6.png" "$work/6.png"
close_desk
open_desk "$bin" "$faces, \"page\": \"Stills\", \"ground\": \"middle\"" assets/example/2-too-dark.png
says '"kept":\["' && says '"grid":\[[0-9.]+,[1-9]' # it has a place once it is drawn
click_in "$(part_at grid)" 500 200 # selects the second
click_in "$(part_at grid)" 500 200 # opens it
says '"tools":\[\[[0-9.]+,[1-9]'
notes=0
note Ring 4 650 270 860 480 # ring, around the hair
note Arrow 3 800 730 700 800 # arrow, to the coat
note Label 6 720 700 720 700 # label
xdotool type 'too near to black'
press Return
note Light 8 492 262 500 300 # light, on the forehead
note Shadow 9 572 440 570 520 # shadow, on the neck
take "$work/notes.png"
close_desk
"$bin" sheet --force --page 16:9 -o "$work/sheet.png" "Too dark"
convert "$work/sheet.png" -filter Lanczos -resize 1100x "$work/sheet-small.png"
small "$to/sheet.png" "$work/sheet-small.png"

echo "The pages and the themes."
for page in Watch Structure Colours; do
	photograph $page assets/demo.png "$faces, \"page\": \"$page\"" "${skin[@]}"
done
photograph Stills assets/demo.png "$faces, \"page\": \"Stills\""
photograph light assets/demo.png "$faces, \"ground\": \"light\"" "${skin[@]}"
side_by_side() { montage "${@:2}" -tile "$(($# - 1))x1" -geometry +8+8 -background '#5e5e5e' -strip "$work/row.png" && exact "$1" "$work/row.png"; }
cd "$work"
side_by_side pages.png Watch.png Structure.png Colours.png Stills.png
side_by_side themes.png notes.png light.png
cd - >/dev/null
mv "$work/pages.png" "$work/themes.png" "$to/"
du -cb "$to"/*.png | tail -1 | awk '{printf "Together they take %.2f MB.\n", $1 / 1e6}'
