package page

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"cartwright/engine/measure"
)

// slash is the fraction slash that [measure.Tape.Show] writes.
const slash = "\u2044"

// rich turns text into nodes in which every fraction is built: "23 5⁄8" gets
// a raised 5 and a 8 on the line, and a screen reader gets "23 and 5/8". A
// fraction in plain digits ("3/4 in") counts as one if a tape shows it.
func rich(s string) nodes { return built(s, mixed) }

// built turns text into nodes in which one builds every fraction.
func built(s string, one func(whole, num, den string) node) nodes {
	var out nodes
	for s != "" {
		at, whole, num, den, end := fraction(s)
		if at < 0 {
			return append(out, text(s))
		}
		if at > 0 {
			out = append(out, text(s[:at]))
		}
		out = append(out, one(whole, num, den))
		s = s[end:]
	}
	return out
}

// fraction finds the first fraction in s: where it starts with its whole
// number, its three numbers, where it ends. at is -1 if there is none.
func fraction(s string) (at int, whole, num, den string, end int) {
	for i := 0; i < len(s); i++ {
		n := digits(s[i:])
		if n == 0 {
			continue
		}
		num, at = s[i:i+n], i
		i += n
		sep := ""
		switch {
		case strings.HasPrefix(s[i:], slash):
			sep = slash
		case strings.HasPrefix(s[i:], "/"):
			sep = "/"
		default:
			continue
		}
		d := digits(s[i+len(sep):])
		den = s[i+len(sep) : i+len(sep)+d]
		end = i + len(sep) + d
		if d == 0 || sep == "/" && !(onTape(num, den) && alone(s, at, end)) {
			i = end - 1
			continue
		}
		// A number and one space before it is its whole.
		if at > 1 && s[at-1] == ' ' {
			w := at - 1
			for w > 0 && isDigit(s[w-1]) {
				w--
			}
			if w < at-1 && !partOfWord(lastRune(s[:w])) {
				whole, at = s[w:at-1], w
			}
		}
		return at, whole, num, den, end
	}
	return -1, "", "", "", 0
}

func digits(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func lastRune(s string) rune {
	r, _ := utf8.DecodeLastRuneInString(s)
	return r
}

// partOfWord reports whether digits after r belong to a name, a decimal or a
// date rather than being a number of their own.
func partOfWord(r rune) bool {
	return strings.ContainsRune("./,_"+slash, r) || unicode.IsLetter(r)
}

// onTape reports whether num/den is a mark of an inch tape.
func onTape(num, den string) bool {
	switch den {
	case "2", "4", "8", "16", "32", "64":
	default:
		return false
	}
	return (len(num) < len(den) || len(num) == len(den) && num < den) && (num[len(num)-1]-'0')%2 == 1
}

// alone reports whether s[at:end] touches no letter, digit or further slash,
// as a part of a date or a name would.
func alone(s string, at, end int) bool {
	joins := func(c byte) bool {
		return isDigit(c) || c == '/' || c == '.' || c == '_' || 'a' <= c|0x20 && c|0x20 <= 'z' || c >= 0x80
	}
	return (at == 0 || !joins(s[at-1])) && (end == len(s) || !joins(s[end]) || s[end] == '.')
}

// mixed builds a number with a fraction: the picture for the eye, the words
// for a screen reader.
func mixed(whole, num, den string) node {
	say := num + "/" + den
	if whole != "" {
		say = whole + " and " + say
	}
	return span("n",
		span("see", attr{"aria-hidden", "true"}, text(whole), diagonal(whole != "", num, den)),
		span("sr", text(say)))
}

// diagonal is the fraction alone. After a whole number it keeps its distance,
// so that "23/32" is never read as "2 3/32".
func diagonal(after bool, num, den string) node {
	class := "fr"
	if after {
		class = "fr after"
	}
	return span(class, el("sup", text(num)), text(slash), el("sub", text(den)))
}

// column shows a length in a column of numbers that are aligned where whole
// and fraction join. The unit is said, not shown.
func column(t measure.Tape, l measure.Length) node {
	whole, num, den := t.Figure(l)
	if rest, neg := strings.CutPrefix(whole, "-"); neg {
		whole = "\u2212" + rest
	} else if rest, neg := strings.CutPrefix(num, "-"); neg {
		whole, num = "\u2212", rest
	}
	frac, class := item(nil), "al"
	if num != "" {
		frac = diagonal(false, num, den)
	} else if w, d, ok := strings.Cut(whole, "."); ok {
		whole, frac, class = w, text("."+d), "al dec"
	}
	return span(class,
		span("w", attr{"aria-hidden", "true"}, text(whole)),
		span("f", attr{"aria-hidden", "true"}, frac),
		span("sr", text(t.Say(l))))
}

// size shows a length in running text, with its unit for a screen reader.
func size(t measure.Tape, l measure.Length) node {
	return span("n",
		span("see", attr{"aria-hidden", "true"}, bare(t.Show(l))),
		span("sr", text(t.Say(l))))
}

// bare is [rich] without the words for a screen reader, for places that say
// them otherwise.
func bare(s string) nodes {
	return built(s, func(whole, num, den string) node {
		return nodes{text(whole), diagonal(whole != "", num, den)}
	})
}

// bySize shows "23 1⁄4 × 21", along the grain first.
func bySize(t measure.Tape, l, w measure.Length) node {
	return span("by", size(t, l), text(" × "), size(t, w))
}

// figure is the number that decides a cut, in the largest type of the program:
// the whole number, and the fraction as two rows of half its size.
func figure(t measure.Tape, l measure.Length) node {
	whole, num, den := t.Figure(l)
	// How many digits wide it is, in halves: the style sheet fits it by that.
	halves := 2*digitsIn(whole) + strings.Count(whole, ".") + max(digitsIn(num), digitsIn(den))
	class := "figure u" + strings.TrimSuffix(strconv.Itoa(halves*5/10)+strconv.Itoa(halves*5%10), "0")
	return div(class, attr{"role", "img"}, attr{"aria-label", t.Say(l)},
		when(whole != "", span("whole", text(whole))),
		when(num != "", span("stack", span("num", text(num)), span("bar"), span("den", text(den)))))
}

// digitsIn counts the digits of s.
func digitsIn(s string) int {
	n := 0
	for i := range len(s) {
		if isDigit(s[i]) {
			n++
		}
	}
	return n
}
