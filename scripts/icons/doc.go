// Command icons writes the program's icon in the sizes that desktops ask for, as a theme's
// folders: hicolor/SIZExSIZE/apps/app.tonedesk.png in the folder that is named. Source of the
// folders: Icon Theme Specification 0.13 (freedesktop.org), and its theme hicolor.
package main
