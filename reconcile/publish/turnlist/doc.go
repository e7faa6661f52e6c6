// Package turnlist writes the list that lies on the bench: for each joint of an order, or of a set of heads, the ferrule, the diameter
// it is finished to, how much comes off on the diameter and per side, what is to be prepared, and room for what was measured.
//
// A list is made by [New] from lines, which [Best] takes from a result or the caller from an order that [ParseOrder] read. It is
// written as HTML that prints on A4 and Letter, as PDF, or as JSON. The same result, lines and options give the same bytes.
//
// # The finished diameter
//
// The base is turned to the hosel, and hosels vary: what counts is the hosel in hand. The list names the nominal diameter and the
// range to stop in: from the nominal hosel up by the shop's flush step, rounded inward. It never begins below the hosel, although a
// step down of that size could not be seen either: what is turned under stays under, and what is over can be turned again. For a hosel
// that measures otherwise the range moves with it.
//
// Heads that ask the same of the bench, such as the clubs of a set, are one line with all their pieces.
//
// # Letters in PDF
//
// The PDF is set in the Go fonts, which cover Latin, Greek and Cyrillic. Chinese, Japanese and Korean letters that they lack are drawn dot
// by dot from bitmap fonts (the acknowledgement below). A character that neither has stands as its code point between marks, ‹U+20BB7›,
// and the list says so: no text is lost, and a part number that a reader cannot type can still be looked up. HTML leaves the letters
// to the reader's own fonts.
//
// The dots are those of github.com/hajimehoshi/bitmapfont, made from the M+ bitmap fonts (Copyright 2002-2005 COZ), Baekmuk Gulim
// (Copyright 1986-2002 Kim Jeong-Hwan; Baekmuk Batang, Baekmuk Dotum, Baekmuk Gulim and Baekmuk Headline are registered trademarks
// owned by Kim Jeong-Hwan), Ark Pixel Font and Cubic 11 (SIL Open Font License) and misc-fixed (public domain).
package turnlist
