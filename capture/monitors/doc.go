// Package monitors lists the monitors of the watched display: where each lies on the desktop, by which
// name it is known again, and the colour profile that the desktop keeps for it.
//
// Sources, from memory:
//
//   - RANDR: The X Resize, Rotate and Reflect Extension, version 1.5, GetMonitors, GetOutputProperty.
//   - ICCX: ICC Profiles in X Specification, version 0.4: _ICC_PROFILE on the root window for the
//     first monitor, _ICC_PROFILE_n for those after it, in the order of Xinerama.
//   - EDID: VESA Enhanced Extended Display Identification Data, release A2, 3.10.3: display
//     descriptors.
package monitors
