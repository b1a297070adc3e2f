// Package seal opens what a tablet sealed to the builder's public key while it
// had no line, and keeps the private key in a file: HPKE in base mode with
// DHKEM(P-256, HKDF-SHA256), HKDF-SHA256 and AES-256-GCM (RFC 9180).
package seal

import (
	"crypto/ecdh"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/hkdf"
	"crypto/hpke"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// about binds a sealed text to its purpose.
const about = "tarnwright lead 1"

// ErrSealed says that a text was not sealed to this key, or was changed since.
var ErrSealed = errors.New("it was not sealed to this key")

// ErrKeyFile says that a file holds no key of the kind used here.
var ErrKeyFile = errors.New("the file holds no private key on P-256 in PEM")

// Key is the builder's private key.
type Key struct {
	private hpke.PrivateKey
	public  string
	root    []byte // what other secrets are derived from
}

// Public is the public key as the page takes it: the uncompressed point, in
// base64.
func (k Key) Public() string { return k.public }

// Derived is a secret of 32 bytes for another purpose: the same wherever the
// key file is, and of no use to find the key or the secret of any other purpose.
// It is nil for no key.
func (k Key) Derived(purpose string) []byte {
	const size = 32
	if k.root == nil {
		return nil
	}
	out, err := hkdf.Key(sha256.New, k.root, nil, "tarnwright "+purpose, size)
	if err != nil {
		return nil // only for a size that is too large
	}
	return out
}

// Open gives the text that was sealed beside another, which was not hidden.
func (k Key) Open(sender, box, beside []byte) ([]byte, error) {
	r, err := hpke.NewRecipient(sender, k.private, hpke.HKDFSHA256(), hpke.AES256GCM(), []byte(about))
	if err != nil {
		return nil, errors.Join(ErrSealed, err)
	}
	plain, err := r.Open(beside, box)
	if err != nil {
		return nil, errors.Join(ErrSealed, err)
	}
	return plain, nil
}

// Load reads the key of a file; when there is none yet, it makes a key and
// the file, which only its owner may read.
func Load(name string) (Key, error) {
	raw, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		if raw, err = create(name); errors.Is(err, fs.ErrExist) {
			raw, err = os.ReadFile(name) // another server made it meanwhile
		}
	}
	if err != nil {
		return Key{}, fmt.Errorf("the key that enquiries are sealed to: %w", err)
	}
	k, err := parse(raw)
	if err != nil {
		return Key{}, fmt.Errorf("%s: %w", name, err)
	}
	return k, nil
}

const pemType = "PRIVATE KEY"

// create writes the whole file before it has its name, so that a power cut
// leaves a key or none.
func create(name string) (raw []byte, err error) {
	own, err := ecdh.P256().GenerateKey(rand.Reader)
	if err != nil {
		return nil, err
	}
	der, err := x509.MarshalPKCS8PrivateKey(own)
	if err != nil {
		return nil, err
	}
	raw = pem.EncodeToMemory(&pem.Block{Type: pemType, Bytes: der})
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		return nil, err
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".key-*") // mode 0600
	if err != nil {
		return nil, err
	}
	defer func() { _ = os.Remove(f.Name()) }()
	_, err = f.Write(raw)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return nil, err
	}
	return raw, os.Link(f.Name(), name) // fails when the name is taken
}

func parse(raw []byte) (Key, error) {
	block, _ := pem.Decode(raw)
	if block == nil || block.Type != pemType {
		return Key{}, ErrKeyFile
	}
	kept, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	if err != nil {
		return Key{}, errors.Join(ErrKeyFile, err)
	}
	signing, ok := kept.(*ecdsa.PrivateKey) // the file does not say what the point is for
	if !ok || signing.Curve != elliptic.P256() {
		return Key{}, ErrKeyFile
	}
	own, err := signing.ECDH()
	if err != nil {
		return Key{}, errors.Join(ErrKeyFile, err)
	}
	private, err := hpke.NewDHKEMPrivateKey(own)
	if err != nil {
		return Key{}, errors.Join(ErrKeyFile, err)
	}
	return Key{private, base64.StdEncoding.EncodeToString(own.PublicKey().Bytes()), own.Bytes()}, nil
}
