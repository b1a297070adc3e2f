// Whole numbers in steps of seven bits, as a compiled program writes them.

export function unsigned(n) {
  const out = [];
  for (; n >= 128; n = Math.floor(n / 128)) out.push((n % 128) | 128);
  return [...out, n];
}

// readUnsigned returns the number that stands at a place, and where the next is.
export function readUnsigned(bytes, at) {
  for (let value = 0, scale = 1; ; scale *= 128) {
    const byte = bytes[at++];
    value += (byte & 127) * scale;
    if (byte < 128) return [value, at];
  }
}
