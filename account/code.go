package account

import (
	"fmt"
	"io"
	"strings"

	"github.com/boombuler/barcode/qr"
)

// margin is the white around a square code, in its squares (ISO/IEC 18004: four).
const margin = 4

// WriteCode draws a link as a square code for a camera, as SVG.
func WriteCode(w io.Writer, link string) error {
	code, err := qr.Encode(link, qr.M, qr.Auto)
	if err != nil {
		return fmt.Errorf("drawing a link of %d characters: %w", len(link), err)
	}
	size := code.Bounds().Dx()
	var path strings.Builder
	for y := range size {
		for x := range size {
			if r, _, _, _ := code.At(x, y).RGBA(); r == 0 {
				fmt.Fprintf(&path, "M%d %dh1v1h-1z", x+margin, y+margin)
			}
		}
	}
	_, err = fmt.Fprintf(w, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %[1]d" width="%d" height="%[2]d" role="img" aria-label="the link as a code for a camera">`+
		`<path fill="#fff" d="M0 0h%[1]dv%[1]dH0z"/><path d="%[3]s"/></svg>`+"\n", size+2*margin, 6*(size+2*margin), path.String())
	return err
}
