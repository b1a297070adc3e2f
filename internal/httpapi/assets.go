package httpapi

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"sort"
	"strconv"
	"strings"
)

func itoa(n int) string { return strconv.Itoa(n) }

// file is one asset, as it is and compressed.
type file struct {
	kind      string
	etag      string
	raw       []byte
	gz, br    []byte
	immutable bool
	minutes   int // that it may be kept, when it is not immutable
}

// made is a file that was put together here.
func made(kind string, raw []byte) file {
	sum := sha256.Sum256(raw)
	return file{kind: kind, raw: raw, etag: `"` + hex.EncodeToString(sum[:6]) + `"`, gz: gzipped(raw, gzip.BestCompression), immutable: true}
}

// hashed is a name with a hash of the file in it.
func (f file) hashed(name string) string {
	ext := path.Ext(name)
	return strings.TrimSuffix(name, ext) + "." + strings.Trim(f.etag, `"`) + ext
}

// assets are the files of the page by the last part of their address, which
// holds a hash of what is in them: a changed file has another address, so a
// browser may keep one for ever. Nothing else is served and nothing is listed.
type assets struct {
	byName          map[string]file
	css, boot, icon string            // addresses
	book            string            // the builder's
	books           map[string]string // the same in other words, by language
	words           map[string]string // the page's texts, by language
	theme, logo     string            // theirs too, or nothing
	queue           string            // of what keeps enquiries on a tablet
	patch           string            // of what keeps the page in step with the widget
	rehearse        string            // of what compiles the widget beside the page
	packed, unpack  string            // the widget as it comes to that, and what unpacks it
	icons           []appIcon
	worker          []byte // as it stands, before version and list are filled in
	app             *file  // the widget, at the framework's own address
	embed           *file  // what another site's page takes, at an address that stays
}

// ErrAssets says that the page's files are not there.
var ErrAssets = errors.New("the page's files are missing")

func loadAssets(root fs.FS) (assets, error) {
	a := assets{byName: map[string]file{}}
	address := map[string]string{}
	sheet, err := styles(root)
	if err != nil {
		return a, err
	}
	a.css = a.put("app.css", sheet)
	for _, dir := range []string{"js", "img"} {
		entries, err := fs.ReadDir(root, dir)
		if err != nil {
			return a, fmt.Errorf("%s: %w", dir, errors.Join(ErrAssets, err))
		}
		for _, e := range entries {
			name := path.Join(dir, e.Name())
			if e.IsDir() || kindOfFile(name) == "" {
				continue
			}
			f, err := loadFile(root, name)
			if err != nil {
				return a, err
			}
			f.immutable = true
			address[name] = a.put(e.Name(), f)
		}
	}
	a.boot = address["js/boot.js"]
	a.queue = address["js/queue.js"]
	a.patch = address["js/patch.js"]
	a.rehearse = address["js/rehearse.js"]
	a.icon = first(address, "img/icon.")
	a.icons = appIcons(address)
	a.worker, _ = fs.ReadFile(root, "worker/worker.js")
	if f, err := loadFile(root, "dist/app.wasm"); err == nil {
		a.app = &f
	}
	if f, err := loadFile(root, "dist/app.pack"); err == nil {
		f.immutable = true
		a.packed, a.unpack = a.put("app.pack", f), address["js/unpack.js"]
	}
	if f, err := loadFile(root, "host/embed.js"); err == nil {
		f.minutes = 5
		a.embed = &f
	}
	return a, nil
}

// put keeps a file under a name that holds its hash, and returns its address.
func (a assets) put(name string, f file) string {
	a.byName[f.hashed(name)] = f
	return "/assets/" + f.hashed(name)
}

// own adds the builder's own files.
func (a *assets) own(cfg Config) {
	a.book = a.put("book.json", made("application/json", cfg.Book))
	a.books = map[string]string{}
	for language, raw := range cfg.Books {
		a.books[language] = a.put("book.json", made("application/json", raw))
	}
	a.words = map[string]string{}
	for language, texts := range cfg.Texts {
		a.words[language] = a.put("words.json", made("application/json", texts))
	}
	if len(cfg.Theme) > 0 {
		a.theme = a.put("theme.css", made(kindOfFile(".css"), cfg.Theme))
	}
	if kind := kindOfFile(cfg.Logo.Name); kind != "" && len(cfg.Logo.Data) > 0 {
		a.logo = a.put("logo"+path.Ext(cfg.Logo.Name), made(kind, cfg.Logo.Data))
	}
}

// bookIn is the builder's book in a language's words, or else in their own.
func (a assets) bookIn(language string) string {
	if at, ok := a.books[language]; ok {
		return at
	}
	return a.book
}

func (a assets) known() Files {
	f := Files{Icon: a.icon, Version: "none"}
	if a.app != nil {
		f.Version = strings.Trim(a.app.etag, `"`)
	}
	return f
}

// styles is every style sheet of the page as one file, in order of name, so
// that one request brings them.
func styles(root fs.FS) (file, error) {
	entries, err := fs.ReadDir(root, "css") // sorted by name
	if err != nil {
		return file{}, fmt.Errorf("css: %w", errors.Join(ErrAssets, err))
	}
	var all []byte
	for _, e := range entries {
		if e.IsDir() || path.Ext(e.Name()) != ".css" {
			continue
		}
		raw, err := fs.ReadFile(root, "css/"+e.Name())
		if err != nil {
			return file{}, fmt.Errorf("css/%s: %w", e.Name(), err)
		}
		all = append(all, bare(raw)...)
	}
	if len(all) == 0 {
		return file{}, fmt.Errorf("css: %w", ErrAssets)
	}
	return made(kindOfFile(".css"), all), nil
}

// bare drops the comments of a style sheet, and the room before its lines.
func bare(raw []byte) []byte {
	var out []byte
	for len(raw) > 0 {
		before, after, found := bytes.Cut(raw, []byte("/*"))
		out = append(out, before...)
		if !found {
			break
		}
		_, raw, _ = bytes.Cut(after, []byte("*/"))
	}
	var lines []byte
	for line := range bytes.Lines(out) {
		if line = bytes.TrimSpace(line); len(line) > 0 {
			lines = append(append(lines, line...), '\n')
		}
	}
	return lines
}

// first is the first address, in order of name, of the files that start so.
func first(address map[string]string, prefix string) string {
	names := make([]string, 0, len(address))
	for n := range address {
		if strings.HasPrefix(n, prefix) {
			names = append(names, n)
		}
	}
	sort.Strings(names)
	if len(names) == 0 {
		return ""
	}
	return address[names[len(names)-1]] // icon.svg comes after icon.png
}

func loadFile(root fs.FS, name string) (file, error) {
	raw, err := fs.ReadFile(root, name)
	if err != nil {
		return file{}, fmt.Errorf("%s: %w", name, err)
	}
	if path.Ext(name) == ".js" {
		raw = withoutComments(raw)
	}
	sum := sha256.Sum256(raw)
	f := file{kind: kindOfFile(name), raw: raw, etag: `"` + hex.EncodeToString(sum[:6]) + `"`}
	f.br, _ = fs.ReadFile(root, name+".br")
	if f.gz, err = fs.ReadFile(root, name+".gz"); err != nil && squeezes(name) {
		f.gz = gzipped(raw, gzip.BestCompression)
	}
	return f, nil
}

// kindOfFile is the media type of a file that may be served, or nothing.
func kindOfFile(name string) string {
	switch path.Ext(name) {
	case ".css":
		return "text/css; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".svg":
		return "image/svg+xml; charset=utf-8"
	case ".png":
		return "image/png"
	case ".webp":
		return "image/webp"
	case ".wasm":
		return "application/wasm"
	case ".pack":
		return "application/octet-stream"
	}
	return ""
}

func squeezes(name string) bool {
	switch path.Ext(name) {
	case ".css", ".js", ".svg":
		return true
	}
	return false
}

// withoutComments drops the lines of a script that only comment, and the room
// before the others: our own scripts hold no text of several lines.
func withoutComments(raw []byte) []byte {
	var out []byte
	for line := range bytes.Lines(raw) {
		line = bytes.TrimSpace(line)
		if len(line) > 0 && !bytes.HasPrefix(line, []byte("//")) {
			out = append(append(out, line...), '\n')
		}
	}
	return out
}

func gzipped(raw []byte, level int) []byte {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, level)
	if err != nil {
		return nil
	}
	if _, err := z.Write(raw); err != nil || z.Close() != nil || b.Len() >= len(raw) {
		return nil
	}
	return b.Bytes()
}

// asset answers /assets/NAME for the exact names it has.
func (s *Server) asset(w http.ResponseWriter, r *http.Request) error {
	f, ok := s.assets.byName[r.PathValue("name")]
	if !ok {
		return s.nothing(w, r)
	}
	anyOrigin(w)
	if f.kind != kindOfFile(".js") { // a worker has the policy that its script comes with
		w.Header().Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
	}
	serve(w, r, f)
	return nil
}

// anyOrigin lets every page take a file: it holds nothing that is not public,
// and a frame without an origin of its own, which some sites make, asks for
// the page's parts as a stranger.
func anyOrigin(w http.ResponseWriter) {
	w.Header().Set("Access-Control-Allow-Origin", "*")
	w.Header().Set("Cross-Origin-Resource-Policy", "cross-origin")
}

// embed answers with what a builder's own page asks for. Its address stays
// the same, so it is kept for minutes only.
func (s *Server) embed(w http.ResponseWriter, r *http.Request) error {
	if s.assets.embed == nil {
		return s.nothing(w, r)
	}
	anyOrigin(w)
	serve(w, r, *s.assets.embed)
	return nil
}

// wasm answers for the widget; without one the page works as a form.
func (s *Server) wasm(w http.ResponseWriter, r *http.Request) error {
	if s.assets.app == nil {
		return s.nothing(w, r)
	}
	// What the loader would otherwise take from the compressed length.
	w.Header().Set("X-Wasm-Length", itoa(len(s.assets.app.raw)))
	anyOrigin(w)
	serve(w, r, *s.assets.app)
	return nil
}

func serve(w http.ResponseWriter, r *http.Request, f file) {
	h := w.Header()
	h.Set("Content-Type", f.kind)
	h.Set("Vary", "Accept-Encoding")
	switch {
	case f.immutable:
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	case f.minutes > 0:
		h.Set("Cache-Control", "public, max-age="+itoa(f.minutes*60))
	default:
		h.Set("Cache-Control", "no-cache")
	}
	body, etag := f.raw, f.etag
	switch {
	case f.br != nil && accepts(r, "br"):
		body, etag = f.br, strings.TrimSuffix(f.etag, `"`)+`-br"`
		h.Set("Content-Encoding", "br")
	case f.gz != nil && accepts(r, "gzip"):
		body, etag = f.gz, strings.TrimSuffix(f.etag, `"`)+`-gz"`
		h.Set("Content-Encoding", "gzip")
	}
	h.Set("ETag", etag)
	if matches(r.Header.Get("If-None-Match"), etag) {
		h.Del("Content-Encoding")
		w.WriteHeader(http.StatusNotModified)
		return
	}
	h.Set("Content-Length", itoa(len(body)))
	if r.Method == http.MethodHead {
		return
	}
	_, _ = w.Write(body)
}

func matches(header, etag string) bool {
	for _, t := range strings.Split(header, ",") {
		if t = strings.TrimPrefix(strings.TrimSpace(t), "W/"); t == etag || t == "*" {
			return true
		}
	}
	return false
}

// accepts reads Accept-Encoding: a coding counts unless its weight is zero.
func accepts(r *http.Request, coding string) bool {
	for _, part := range strings.Split(strings.Join(r.Header.Values("Accept-Encoding"), ","), ",") {
		name, weight, weighted := strings.Cut(strings.TrimSpace(part), ";")
		if !strings.EqualFold(strings.TrimSpace(name), coding) {
			continue
		}
		if !weighted {
			return true
		}
		q, err := strconv.ParseFloat(strings.TrimPrefix(strings.TrimSpace(weight), "q="), 64)
		return err == nil && q > 0
	}
	return false
}
