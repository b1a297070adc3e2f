package book

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"tarnwright/internal/jsonfile"
	"tarnwright/internal/theme"
)

// ThemeName is the file of the builder's own look; a folder may do without.
const ThemeName = "theme.json"

// Look is the builder's own look, with their logo's file.
type Look struct {
	Theme    theme.Theme
	LogoName string
	Logo     []byte
}

// mostLogoBytes bounds a logo: it stands on a page of 90 kB.
const mostLogoBytes = 48 << 10

// LoadLook reads theme.json and the logo it names. A folder without one has
// the usual look; one that people could not read is a fault.
func LoadLook(dir fs.FS) (Look, []Fault) {
	var l Look
	data, err := fs.ReadFile(dir, ThemeName)
	if errors.Is(err, fs.ErrNotExist) {
		return l, nil
	}
	if err != nil {
		return l, []Fault{missing(ThemeName, err)}
	}
	s := source{ThemeName, data, lookLimits(), map[string]*jsonfile.Doc{}}
	faults := s.into(&l.Theme, func(doc *jsonfile.Doc) []Fault {
		c := checker{doc: doc}
		for _, f := range l.Theme.Faults() {
			c.that(false, f.Path, f.Code, f.Text)
		}
		if len(c.faults) == 0 && l.Theme.Logo != "" {
			l.LogoName = l.Theme.Logo
			var wrong string
			l.Logo, wrong = logo(dir, l.LogoName)
			c.that(wrong == "", "logo", "logo", "logo "+wrong)
		}
		return c.faults
	})
	return l, faults
}

// logo reads a picture, and says what is wrong with it.
func logo(dir fs.FS, name string) (data []byte, wrong string) {
	data, err := fs.ReadFile(dir, name)
	if err != nil {
		return nil, fmt.Sprintf("names %s, which is not beside this file", name)
	}
	if len(data) > mostLogoBytes {
		return nil, fmt.Sprintf("has %d bytes and may have %d", len(data), mostLogoBytes)
	}
	kind := name[strings.LastIndexByte(name, '.')+1:]
	head := map[string]string{"png": "\x89PNG\r\n\x1a\n", "webp": "RIFF"}[kind]
	plain := bytes.ToLower(data)
	svg := kind == "svg" && bytes.Contains(plain, []byte("<svg")) && !bytes.Contains(plain, []byte("<script")) && !bytes.Contains(plain, []byte("<!entity"))
	if kind != "svg" && !bytes.HasPrefix(data, []byte(head)) || kind == "svg" && !svg {
		return nil, fmt.Sprintf("names %s, which is no plain picture of the kind its name says", name)
	}
	return data, ""
}

func lookLimits() []jsonfile.Limit {
	return []jsonfile.Limit{between("file_version", fileVersion, fileVersion)}
}
