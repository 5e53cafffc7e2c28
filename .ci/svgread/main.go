// Svgread draws SVG files with two readers in Go that share no code with this
// repository, and prints how much of each sheet is inked and how much of it is black
// over more than a line or an arrowhead. It ends with 1 where a reader refuses a file,
// or draws it black or empty.
package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/srwiley/oksvg"
	"github.com/srwiley/rasterx"
	"github.com/srwiley/scanx"
	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
)

const (
	dots  = 4      // to the millimetre, about
	least = 0.001  // of the sheet, inked
	most  = 0.0005 // of the sheet, black over 3 mm either way
)

func main() {
	names := os.Args[1:]
	told := make([]string, len(names))
	var failed atomic.Bool
	var all sync.WaitGroup
	hands := make(chan bool, runtime.NumCPU())
	for i, name := range names {
		all.Add(1)
		go func() {
			hands <- true
			defer func() { <-hands; all.Done() }()
			var good bool
			if told[i], good = read(name); !good {
				failed.Store(true)
			}
		}()
	}
	all.Wait()
	for _, lines := range told {
		fmt.Print(lines)
	}
	if failed.Load() || len(names) == 0 {
		os.Exit(1)
	}
}

// read draws one file with both readers, and says what it looks like.
func read(name string) (told string, good bool) {
	data, err := os.ReadFile(name)
	if err != nil {
		return fmt.Sprintln("FAIL", err), false
	}
	good = true
	for _, reader := range []struct {
		name string
		draw func([]byte) (image.Image, error)
	}{{"oksvg", byOksvg}, {"canvas", byCanvas}} {
		img, err := reader.draw(data)
		share, black := 0.0, 0.0
		if err == nil {
			share, black = inked(img)
		}
		verdict := "ok  "
		if err != nil || share < least || black > most {
			verdict, good = "FAIL", false
		}
		short := filepath.Join(filepath.Base(filepath.Dir(name)), filepath.Base(name))
		told += fmt.Sprintf("%s %s by %s: %.4f inked, %.4f black", verdict, short, reader.name, share, black)
		if err != nil {
			told += fmt.Sprint(", ", err)
		}
		told += "\n"
	}
	return told, good
}

func paper(width, height int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	draw.Draw(img, img.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	return img
}

func byOksvg(data []byte) (image.Image, error) {
	icon, err := oksvg.ReadIconStream(bytes.NewReader(data), oksvg.IgnoreErrorMode)
	if err != nil {
		return nil, err
	}
	width, height := int(icon.ViewBox.W*dots), int(icon.ViewBox.H*dots)
	img := paper(width, height)
	icon.SetTarget(0, 0, float64(width), float64(height))
	// A scanner that goes over what a path covers; rasterx's own goes over all of the
	// sheet for every path.
	icon.Draw(rasterx.NewDasher(width, height, scanx.NewScanner(scanx.NewImgSpanner(img), width, height)), 1)
	return img, nil
}

func byCanvas(data []byte) (image.Image, error) {
	c, err := canvas.ParseSVG(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	drawn := rasterizer.Draw(c, canvas.DPMM(1), canvas.DefaultColorSpace)
	img := paper(drawn.Bounds().Dx(), drawn.Bounds().Dy())
	draw.Draw(img, img.Bounds(), drawn, image.Point{}, draw.Over)
	return img, nil
}

// inked is the share of the dots that are not white, and of those that are black with
// all round them.
func inked(img image.Image) (share, black float64) {
	b := img.Bounds()
	dark := func(x, y int, least uint32) bool {
		r, g, bl, _ := img.At(x, y).RGBA()
		return r+g+bl < 3*least
	}
	const round = 3 * dots / 2
	ink, solid := 0, 0
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if !dark(x, y, 0xf000) {
				continue
			}
			ink++
			all := true
			for _, dx := range [...]int{-round, 0, round} {
				for _, dy := range [...]int{-round, 0, round} {
					all = all && image.Pt(x+dx, y+dy).In(b) && dark(x+dx, y+dy, 0x8000)
				}
			}
			if all {
				solid++
			}
		}
	}
	n := float64(b.Dx() * b.Dy())
	return float64(ink) / n, float64(solid) / n
}
