package jsonfile

import "bytes"

// layout lays out compact JSON: a list or an object that fits on the line
// stays on it, a longer one has a line for each member.
func layout(out *bytes.Buffer, raw []byte, indent string) {
	if len(raw) == 0 || (raw[0] != '{' && raw[0] != '[') || bytes.Equal(raw, []byte("{}")) || bytes.Equal(raw, []byte("[]")) {
		out.Write(raw)
		return
	}
	// The outermost value is always opened, so that a file has lines.
	if indent != "" && len(indent)+len(raw) <= lineWidth {
		oneLine(out, raw)
		return
	}
	inner := indent + "  "
	out.WriteByte(raw[0])
	for i, part := range split(raw[1 : len(raw)-1]) {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteString("\n" + inner)
		if raw[0] == '{' {
			key, value := cut(part)
			out.Write(key)
			out.WriteString(": ")
			part = value
		}
		layout(out, part, inner)
	}
	out.WriteString("\n" + indent)
	out.WriteByte(raw[len(raw)-1])
}

// oneLine writes compact JSON with a space after each comma and colon.
func oneLine(out *bytes.Buffer, raw []byte) {
	quoted := false
	for i := 0; i < len(raw); i++ {
		c := raw[i]
		out.WriteByte(c)
		switch {
		case quoted && c == '\\':
			i++
			out.WriteByte(raw[i])
		case c == '"':
			quoted = !quoted
		case !quoted && (c == ',' || c == ':'):
			out.WriteByte(' ')
		}
	}
}

// split parts the members of a compact list or object at its own commas.
func split(raw []byte) [][]byte {
	var parts [][]byte
	depth, quoted, from := 0, false, 0
	for i := 0; i < len(raw); i++ {
		switch c := raw[i]; {
		case quoted && c == '\\':
			i++
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '{' || c == '[':
			depth++
		case c == '}' || c == ']':
			depth--
		case c == ',' && depth == 0:
			parts = append(parts, raw[from:i])
			from = i + 1
		}
	}
	return append(parts, raw[from:])
}

// cut parts a member at the colon after its key.
func cut(member []byte) (key, value []byte) {
	for i := 1; i < len(member); i++ {
		switch member[i] {
		case '\\':
			i++
		case '"':
			return member[:i+1], member[i+2:]
		}
	}
	return member, nil
}
