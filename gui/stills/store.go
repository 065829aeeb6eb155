package stills

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/capture/plainfile"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills/notes"
)

// Names inside the folder of stills, and inside a still's.
const (
	pictureFile = "picture.png"
	metaName    = "still.json"
	notesFile   = "notes.json"
	trashDir    = "trash"
	damagedDir  = "damaged"
	makingDir   = ".new-"  // a still in the making
	goingDir    = ".gone-" // a still on its way out
)

// Store keeps stills in a folder. All of its methods may be called from any goroutine, and
// other programs may use the same folder.
type Store struct {
	folders Folders
	disk    files.Disk

	mu    sync.Mutex
	known map[string]*Entry // what List read last, by ID
}

// New returns the store in these folders. Nothing is made or read before it is needed.
func New(f Folders) *Store {
	return &Store{folders: f, disk: files.System{}, known: map[string]*Entry{}}
}

// Folder returns where a still's files lie; with no ID, where all stills do.
func (s *Store) Folder(id string) string { return filepath.Join(s.folders.Data, id) }

// Files are the paths of what a still is read from.
func (s *Store) Files(id string) []string {
	at := s.Folder(id)
	return []string{filepath.Join(at, pictureFile), filepath.Join(at, metaName), filepath.Join(at, notesFile)}
}

// Still is one that was opened.
type Still struct {
	ID      string
	Meta    Meta
	Picture analysis.Pixels // RGBA; not to be written to
	Notes   notes.Document  // as it lay on the disk
	// Trouble says why the notes could not be read: it wraps notes.ErrDamaged, and they were
	// set aside and begin anew, or notes.ErrNewer, and they can't be saved. Else nil.
	Trouble error

	// Barred says why the still can't be marked: it wraps ErrHeld where another window does,
	// or ErrUnheld where nobody asked to, or says why the disk would not let it. Else nil.
	Barred error

	held *os.File // while Barred is nil
}

// Close lets go of a still, so that another window may mark it.
func (still *Still) Close() {
	if still.Barred == nil {
		_ = still.held.Close()
		still.Barred = ErrUnheld
	}
}

// Keep keeps a picture as a new still and returns its ID. Of meta it takes all but the size
// and the notes' summary. The picture may be of any layout, and must not be written to
// meanwhile. If it fails nothing is kept; the error wraps ErrPicture, or says why the disk
// would not take it.
func (s *Store) Keep(picture analysis.Pixels, meta Meta, list []notes.Note) (id string, err error) {
	if err := picture.Check(); err != nil {
		return "", fmt.Errorf("keep a still: %w: %w", ErrPicture, err)
	}
	if picture.Width == 0 || picture.Height == 0 || picture.Width > maxPixels/picture.Height {
		return "", fmt.Errorf("keep a still: %w", ErrPicture)
	}
	meta.Width, meta.Height, meta.Notes = picture.Width, picture.Height, summaryOf(list)
	id = newID(meta.Time)
	if err := s.keep(id, picture, metaFile{Meta: meta}, notes.Document{Notes: list}); err != nil {
		return "", fmt.Errorf("keep still %s: %w", id, err)
	}
	return id, nil
}

// keep writes a still beside and puts it in its place.
func (s *Store) keep(id string, picture analysis.Pixels, meta metaFile, d notes.Document) (err error) {
	if err := s.ready(); err != nil {
		return err
	}
	about, err := meta.encode()
	if err != nil {
		return err
	}
	making := filepath.Join(s.folders.Data, makingDir+id)
	if err := s.disk.Mkdir(making); err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = s.disk.Remove(making) // the error at hand says more
		}
	}()
	write := func(name string, content func(io.Writer) error) {
		if err == nil {
			err = s.disk.Write(filepath.Join(making, name), content)
		}
	}
	write(pictureFile, func(w io.Writer) error { return WritePNGIn(w, imageOf(picture), picture.Space) })
	if len(d.Notes) > 0 {
		text, err := d.Encode()
		if err != nil {
			return err
		}
		write(notesFile, files.Bytes(text))
	}
	write(metaName, files.Bytes(about))
	if err == nil {
		err = s.disk.Settle(making)
	}
	if err == nil {
		err = s.disk.Rename(making, s.Folder(id))
	}
	if err == nil {
		_ = s.disk.Settle(s.folders.Data) // it is kept; a power cut may still undo that
	}
	return err
}

// ready makes the folder of stills if it isn't there.
func (s *Store) ready() error { return os.MkdirAll(s.folders.Data, 0o700) }

// Open opens a still to read it. The error wraps ErrGone, ErrDamaged or ErrNewer, or says why
// the disk would not give it; a damaged one is set aside, which the error says as a Problem.
func (s *Store) Open(id string) (*Still, error) { return s.open(id, false) }

// Mark opens a still to mark it, which one window does at a time, until it calls Close or
// ends. Where that is another, or can't be, the still is opened to be read, and its Barred
// says why. Errors are those of Open.
func (s *Store) Mark(id string) (*Still, error) { return s.open(id, true) }

func (s *Store) open(id string, mark bool) (*Still, error) {
	still, err := s.picture(id)
	if errors.Is(err, ErrDamaged) {
		if err = s.setAside(id, err); err == nil { // another program mended it
			still, err = s.picture(id)
		}
	}
	if err == nil {
		if mark { // before the notes are read: they stay as they are from then on
			still.Barred = s.change(id, func() (err error) {
				files.Sweep(s.Folder(id), 0) // who writes has the lock
				still.held, err = hold(s.Folder(id), os.O_CREATE)
				return err
			})
		}
		if err = s.withNotes(still); err != nil {
			still.Close()
		}
	}
	if err != nil {
		return nil, fmt.Errorf("open still %q: %w", id, err)
	}
	if still.Trouble == nil { // a crash may have left an old summary
		still.Meta.Notes = summaryOf(still.Notes.Notes)
	}
	return still, nil
}

// picture opens a still without its notes.
func (s *Store) picture(id string) (*Still, error) {
	m, err := s.readMeta(id)
	if err != nil {
		return nil, err
	}
	file, info, err := plainfile.Open(filepath.Join(s.Folder(id), pictureFile), os.O_RDONLY)
	if err != nil {
		return nil, s.missing(id, err)
	}
	defer file.Close()
	if info.Size() > m.maxPicture() {
		return nil, s.missing(id, fmt.Errorf("%s of %d bytes: %w", pictureFile, info.Size(), plainfile.ErrLarge))
	}
	still := &Still{ID: id, Meta: m.Meta, Barred: ErrUnheld}
	still.Picture, err = readPNG(file, m.Width, m.Height)
	return still, err
}

// withNotes reads a still's notes. Damaged ones are set aside.
func (s *Store) withNotes(still *Still) error {
	var err error
	still.Notes, err = s.readNotes(still.ID)
	switch {
	case errors.Is(err, notes.ErrNewer):
		still.Trouble = err
		return nil
	case !errors.Is(err, notes.ErrDamaged):
		return err
	}
	still.Trouble = err
	aside := s.change(still.ID, func() error {
		still.Notes, err = s.readNotes(still.ID)
		if errors.Is(err, notes.ErrDamaged) {
			return s.setNotesAside(still.ID)
		}
		return err
	})
	if aside != nil { // they lie where they were, and are not written over
		still.Trouble = errors.Join(still.Trouble, aside)
	}
	if err == nil {
		still.Trouble = nil // another program mended them
	}
	return nil
}

// Meta returns what is known of a still, without its picture. Errors are those of Open, but
// nothing is set aside.
func (s *Store) Meta(id string) (Meta, error) {
	m, err := s.readMeta(id)
	return m.Meta, about("look at still", id, err)
}

// readMeta reads a still's still.json.
func (s *Store) readMeta(id string) (metaFile, error) {
	if !isID(id) {
		return metaFile{}, ErrGone
	}
	m, err := metaIn(s.Folder(id))
	return m, s.missing(id, err)
}

// metaIn reads the still.json in a folder.
func metaIn(folder string) (metaFile, error) {
	text, err := plainfile.Read(filepath.Join(folder, metaName), maxMeta)
	if err != nil {
		return metaFile{}, err
	}
	return decodeMeta(text)
}

// senseless reports whether what stands in the place of a still's file can't be one.
func senseless(err error) bool {
	return errors.Is(err, plainfile.ErrNotPlain) || errors.Is(err, plainfile.ErrFolder) || errors.Is(err, plainfile.ErrLarge)
}

// missing says what it means that a file of a still could not be read: a still without it is
// damaged, unless the still as a whole is gone. Other errors, and nil, stay as they are.
func (s *Store) missing(id string, err error) error {
	if senseless(err) {
		return fmt.Errorf("%w: %v", ErrDamaged, err)
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if _, gone := os.Lstat(s.Folder(id)); errors.Is(gone, fs.ErrNotExist) {
		return ErrGone
	}
	return fmt.Errorf("%w: %v", ErrDamaged, err)
}

// readNotes reads a still's notes; none is no error. The error wraps notes.ErrDamaged or
// notes.ErrNewer, or says why the disk would not give them.
func (s *Store) readNotes(id string) (notes.Document, error) {
	text, err := plainfile.Read(filepath.Join(s.Folder(id), notesFile), notes.MaxBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return notes.Document{}, nil
	}
	if senseless(err) {
		return notes.Document{}, fmt.Errorf("%w: %v", notes.ErrDamaged, err)
	}
	if err != nil {
		return notes.Document{}, err
	}
	return notes.Decode(text)
}

// idTime is how the time stands in an ID: local time, for people who look into the folder.
const idTime = "20060102-150405"

var idPattern = regexp.MustCompile(`^\d{8}-\d{6}-[a-z2-7]{10}$`)

// newID returns the ID of a new still.
func newID(at time.Time) string { return at.Format(idTime) + "-" + unique() }

// isID reports whether a name is that of a still's folder.
func isID(name string) bool { return idPattern.MatchString(name) }

// unique returns a short name that nobody else has: 50 random bits.
func unique() string { return strings.ToLower(rand.Text()[:10]) }

// summaryOf returns what the list shows of notes.
func summaryOf(list []notes.Note) Summary {
	sum := Summary{Texts: []string{}}
	for _, n := range list {
		sum.Count++
		if n.Text != "" {
			sum.Texts = append(sum.Texts, n.Text)
		}
	}
	return sum
}

// Has reports whether there is a still with an ID.
func (s *Store) Has(id string) bool {
	_, err := os.Lstat(s.Folder(id))
	return isID(id) && err == nil
}
