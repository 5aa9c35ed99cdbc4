package main

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image/png"
	"math"
	"net/http"
	"testing"
	"time"

	"cartwright/engine/scene"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// The harness stands in for page and planner: it starts the frame, gives it
// scenes, and keeps all that it says.
const harnessPage = `<!doctype html><html lang="en"><meta charset="utf-8"><link rel="icon" href="data:,"><title>harness</title><link rel="stylesheet" href="harness.css">
<button id="before">before</button><div><iframe title="Drawing" src="../canvas.html"></iframe></div><button id="after">after</button><script src="harness.js"></script></html>`

const harnessStyle = `body{margin:0;background:#EDF1EE;color-scheme:light}body.dark{background:#0E1416;color-scheme:dark}
button{display:block;height:20px}iframe{border:0;display:block;width:800px;height:460px}`

const harnessScript = `
const light={paper:'#EDF1EE',sheet:'#FBFCFA',ink:'#14201E',ink2:'#46534F',rule:'#78857F',hair:'#CBD4CE',tint:'#E3E9E4',now:'#FFB81C',nowink:'#14201E',lit:'#FFF0C9',store:'#0A5A9C',bad:'#A83600',good:'#00664A'};
const dark={paper:'#0E1416',sheet:'#151D1F',ink:'#EAF0EC',ink2:'#AEBAB4',rule:'#74827C',hair:'#2E3A3A',tint:'#1F2A2B',now:'#FFC233',nowink:'#14201E',lit:'#3A3214',store:'#7BC0F5',bad:'#FF9168',good:'#5BD0A3'};
const frame=document.querySelector('iframe'), told=[], sent=[], keys=[];
let port, view=null;
const stats=()=>frame.contentWindow.viewStats();
addEventListener('message',e=>{told.push(e.data); if(e.data.kind==='view') view=e.data.state});
addEventListener('keydown',e=>keys.push(e.key));
frame.addEventListener('load',()=>{ const c=new MessageChannel(); port=c.port1; port.onmessage=e=>{sent.push(e.data); globalThis.heard&&heard(e.data)};
  frame.contentWindow.postMessage({kind:'port',theme:light,view,dpr:devicePixelRatio},location.origin,[c.port2]); if(last) show(last) });
let last=null;
function show(b64){ last=b64; const b=Uint8Array.from(atob(b64),c=>c.charCodeAt(0)); port&&port.postMessage(b.buffer,[b.buffer]) }
function tell(m){ frame.contentWindow.postMessage(m,location.origin) }
`

func harness(t *testing.T, density float64, touch bool, flags ...string) *tab {
	page := func(kind, body string) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", kind)
			w.Header().Set("Content-Security-Policy", policy)
			_, _ = w.Write([]byte(body))
		}
	}
	url, _ := serveSite(t, map[string]http.HandlerFunc{
		"/test/{$}": page("text/html", harnessPage), "/test/harness.js": page("text/javascript", harnessScript),
		"/test/harness.css": page("text/css", harnessStyle),
	})
	b := newTab(t, 820, 520, density, touch, flags...)
	b.do(chromedp.Navigate(url + "test/"))
	b.wait(`typeof port==='object'`)
	return b
}

// show gives the frame a scene and waits until it is drawn.
func (b *tab) show(s scene.Scene) {
	b.Helper()
	data := base64.StdEncoding.EncodeToString(scene.Encode(s))
	eval[any](b, fmt.Sprintf(`show(%q)`, data))
	b.wait(fmt.Sprintf(`frame.contentWindow.viewStats && stats().shown && stats().title===%q`, s.Title))
	b.still()
}

// still waits until no frame has been drawn for a while.
func (b *tab) still() {
	b.Helper()
	last := -1
	for range 100 {
		n := eval[int](b, `stats().frames`)
		if n == last {
			return
		}
		last = n
		time.Sleep(150 * time.Millisecond)
	}
	b.Fatal("it never stops drawing")
}

// pixel returns the colour of the page at a point, from a picture of it.
func pixel(t *testing.T, b *tab, x, y, density float64) [3]int {
	t.Helper()
	data, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	r, g, bl, _ := img.At(int(x*density), int(y*density)).RGBA()
	return [3]int{int(r >> 8), int(g >> 8), int(bl >> 8)}
}

// frameTop is where the frame begins under the first button.
const frameTop = 20

func TestViewDraws(t *testing.T) {
	for _, density := range []float64{1, 2} {
		t.Run(fmt.Sprintf("density %g", density), func(t *testing.T) {
			b := harness(t, density, false)
			b.show(sheetScene())
			b.shot(fmt.Sprintf("view-light-%g", density))
			// The middle of the band of the next cut is ink, its side amber.
			for _, p := range []struct {
				what    string
				x, y    float64
				r, g, b int
			}{
				{"the next cut", 206, 300, 0x14, 0x20, 0x1e},
				{"its band", 199, 300, 0xff, 0xb8, 0x1c},
				{"a part that is cut", 60, 60, 0xe3, 0xe9, 0xe4},
				{"the page behind the paper", 10, 10, 0xed, 0xf1, 0xee},
			} {
				if got := pixel(t, b, p.x, p.y+frameTop, density); got != [3]int{p.r, p.g, p.b} {
					t.Errorf("%s at %g, %g: %x, want %x", p.what, p.x, p.y, got, [3]int{p.r, p.g, p.b})
				}
			}
			eval[any](b, `document.body.className='dark', tell({kind:'theme', theme:dark})`)
			b.still()
			b.shot(fmt.Sprintf("view-dark-%g", density))
			if got := pixel(t, b, 60, 60+frameTop, density); got != [3]int{0x1f, 0x2a, 0x2b} {
				t.Errorf("dark tint is %x", got)
			}
			if got := pixel(t, b, 10, 10+frameTop, density); got != [3]int{0x0e, 0x14, 0x16} {
				t.Errorf("dark page behind the paper is %x", got)
			}
		})
	}
}

func TestViewIdles(t *testing.T) {
	b := harness(t, 1, false)
	b.show(sheetScene())
	before := eval[int](b, `stats().frames`)
	time.Sleep(5 * time.Second)
	if n := eval[int](b, `stats().frames`) - before; n != 0 {
		t.Errorf("%d frames drawn in 5 idle seconds", n)
	}
	eval[any](b, fmt.Sprintf(`show(%q)`, base64.StdEncoding.EncodeToString(scene.Encode(cartScene(200, 0)))))
	b.wait(`stats().title==='Front view'`)
	b.still()
	if n := eval[int](b, `stats().frames`) - before; n < 1 || n > 3 {
		t.Errorf("a new scene took %d frames, want 1 or so", n)
	}
}

func TestViewTaps(t *testing.T) {
	b := harness(t, 1, true)
	b.show(sheetScene())
	want := func(refs string) { // the port may take a moment
		t.Helper()
		const tapped = `sent.filter(m=>m.kind==='tap').map(m=>m.ref).join(' ')`
		for range 20 {
			if eval[string](b, tapped) == refs {
				return
			}
			time.Sleep(50 * time.Millisecond)
		}
		t.Errorf("tapped %s, want %s", eval[string](b, tapped), refs)
	}
	tap := func(x, y float64) {
		b.touch("touchStart", x, y+frameTop)
		b.touch("touchEnd")
	}
	tap(204, 57)
	tap(530+18, 57) // within 44 px
	tap(600, 257)
	want("cut/0 cut/1 cut/4")
	time.Sleep(450 * time.Millisecond)
	tap(206, 257)
	tap(206, 257) // a double tap marks one cut, not two
	tap(700, 150) // nothing there
	time.Sleep(100 * time.Millisecond)
	want("cut/0 cut/1 cut/4 cut/2")
	// The system takes the finger away: no tap, and the next one counts.
	time.Sleep(450 * time.Millisecond)
	b.touch("touchStart", 280, 257+frameTop)
	b.touch("touchCancel")
	tap(280, 257)
	want("cut/0 cut/1 cut/4 cut/2 cut/3")
}

func TestViewZoomsAndComesBack(t *testing.T) {
	b := harness(t, 1, true)
	b.show(sheetScene())
	zoom := func() float64 { return eval[float64](b, `stats().zoom`) }
	b.touch("touchStart", 350, 200, 450, 200)
	for i := 1.0; i <= 8; i++ {
		b.touch("touchMove", 350-10*i, 200, 450+10*i, 200)
	}
	b.touch("touchEnd")
	b.still()
	if z := zoom(); math.Abs(z-2.6) > 0.02 {
		t.Errorf("pinched from 100 to 260 px: zoom %g, want 2.6", z)
	}
	b.shot("view-zoomed")
	// One finger pans.
	x0 := eval[float64](b, `stats().spots[0].x`)
	b.touch("touchStart", 400, 300)
	b.touch("touchMove", 430, 300)
	b.touch("touchMove", 460, 300)
	b.touch("touchEnd")
	b.still()
	if d := eval[float64](b, `stats().spots[0].x`) - x0; math.Abs(d-60) > 1 {
		t.Errorf("panned by 60 px, the drawing moved by %g", d)
	}
	// The frame is lost and comes back as it was: the page keeps the state.
	spot := eval[float64](b, `stats().spots[2].x`)
	eval[any](b, `told.length=0, frame.contentWindow.document.querySelector('canvas').getContext('webgl2').getExtension('WEBGL_lose_context').loseContext()`)
	b.wait(`told.some(m=>m.kind==='ready')`)
	b.still()
	if z, x := zoom(), eval[float64](b, `stats().spots[2].x`); math.Abs(z-2.6) > 0.02 || math.Abs(x-spot) > 1 {
		t.Errorf("after the context was lost: zoom %g, spot at %g, want 2.6 and %g", z, x, spot)
	}
	b.shot("view-zoomed-again")
	eval[any](b, `tell({kind:'fit'})`)
	b.wait(`stats().zoom===1`)
	eval[any](b, `tell({kind:'in'})`)
	b.wait(`stats().zoom===1.5`)
	eval[any](b, `tell({kind:'out'})`)
	b.wait(`stats().zoom===1`)
	for range 2 { // a double tap on nothing zooms in
		b.touch("touchStart", 700, 150+frameTop)
		b.touch("touchEnd")
	}
	b.wait(`stats().zoom===2.5`)
}

// Upright, where one finger would scroll the page: two fingers still zoom.
func TestViewPinchesUpright(t *testing.T) {
	b := harness(t, 1, true)
	b.show(sheetScene())
	eval[any](b, `document.body.style.height='3000px'`)
	b.touch("touchStart", 400, 200)
	b.touch("touchStart", 400, 200, 400, 300)
	for i := 1.0; i <= 8; i++ {
		b.touch("touchMove", 400, 200-10*i, 400, 300+10*i)
	}
	b.touch("touchEnd")
	b.still()
	if z := eval[float64](b, `stats().zoom`); math.Abs(z-2.6) > 0.02 {
		t.Errorf("pinched from 100 to 260 px: zoom %g, want 2.6", z)
	}
	if y := eval[float64](b, `scrollY`); y != 0 {
		t.Errorf("the page scrolled to %g", y)
	}
	eval[any](b, `tell({kind:'fit'})`)
	b.wait(`stats().fitted`)
	b.still()
	b.touch("touchStart", 400, 400)
	for i := 1.0; i <= 10; i++ {
		b.touch("touchMove", 400, 400-20*i)
		time.Sleep(20 * time.Millisecond)
	}
	b.touch("touchEnd")
	b.wait(`scrollY>100`)
	if z := eval[float64](b, `stats().zoom`); z != 1 {
		t.Errorf("one finger zoomed to %g", z)
	}
}

func TestViewDrags(t *testing.T) {
	b := harness(t, 1, true)
	b.show(cartScene(200, 40))
	spot := eval[map[string]any](b, `(s=>({x:s.x+s.w/2,y:s.y+s.h/2,k:stats().zoom}))(stats().spots[2])`)
	x, y, k := spot["x"].(float64), spot["y"].(float64)+frameTop, spot["k"].(float64)
	// The planner answers each move with a new scene.
	eval[any](b, `globalThis.steps={};0`)
	for px := 100; px <= 300; px += 4 {
		eval[any](b, fmt.Sprintf(`steps[%d]=%q;0`, px, base64.StdEncoding.EncodeToString(scene.Encode(cartScene(scene.Unit(px), 40)))))
	}
	eval[any](b, `globalThis.heard=m=>{ if(m.kind==='drag'&&m.phase!=='start') show(steps[200+m.by/25400]) };0`)
	before := eval[int](b, `stats().frames`)
	b.touch("touchStart", x+3, y)
	for i := 1.0; i <= 20; i++ {
		b.touch("touchMove", x+3+i*2*k, y+i)
	}
	time.Sleep(100 * time.Millisecond)
	b.still()
	b.shot("view-drag")
	if !eval[bool](b, `stats().dragging`) {
		t.Error("nothing is being dragged")
	}
	b.touch("touchEnd")
	b.still()
	drags := eval[[]map[string]any](b, `sent.filter(m=>m.kind==='drag')`)
	if len(drags) < 3 || drags[0]["phase"] != "start" || drags[len(drags)-1]["phase"] != "end" {
		t.Fatalf("drag messages: %v", drags)
	}
	end := drags[len(drags)-1]
	if end["ref"] != "divider/0" || end["by"].(float64) != 40*25400 {
		t.Errorf("dragged by 40 px: %v, want %d", end, 40*25400)
	}
	for _, d := range drags {
		if int64(d["by"].(float64))%101600 != 0 {
			t.Errorf("%v is no whole step", d)
		}
	}
	if n := eval[int](b, `sent.filter(m=>m.kind==='tap').length`); n != 0 {
		t.Errorf("the drag tapped %d times", n)
	}
	t.Logf("%d drag messages, %d frames for 20 moves", len(drags), eval[int](b, `stats().frames`)-before)
}

func TestViewLetsKeysAndWheelPass(t *testing.T) {
	b := harness(t, 1, false)
	b.show(sheetScene())
	b.do(chromedp.MouseClickXY(700, 170))
	active := `document.activeElement.tagName+'#'+document.activeElement.id`
	if got := eval[string](b, active); got != "IFRAME#" {
		t.Errorf("after a click on the drawing the focus is on %s", got)
	}
	b.do(chromedp.KeyEvent(" "), chromedp.KeyEvent("u"))
	if got := eval[[]string](b, `keys`); len(got) != 2 || got[0] != " " || got[1] != "u" {
		t.Errorf("the page hears %q", got)
	}
	b.do(chromedp.KeyEvent("+"))
	b.wait(`stats().zoom===1.5`)
	b.do(chromedp.KeyEvent("0"))
	b.wait(`stats().zoom===1`)
	b.do(chromedp.KeyEvent("\t"))
	if got := eval[string](b, active); got != "BUTTON#after" {
		t.Errorf("Tab leads to %s", got)
	}
	eval[any](b, `document.body.style.height='3000px'`)
	wheel := func(dy float64, modifiers int64) {
		_, err := chromedp.Call(b.ctx, input.DispatchMouseEvent, input.DispatchMouseEventParams{
			Type: input.DispatchMouseEventTypeMouseWheel, X: 400, Y: 200, DeltaX: 1e-9, DeltaY: dy, Modifiers: modifiers})
		if err != nil {
			t.Fatal(err)
		}
	}
	wheel(100, 0)
	b.wait(`scrollY>50`)
	if z := eval[float64](b, `stats().zoom`); z != 1 {
		t.Errorf("the wheel zoomed to %g", z)
	}
	eval[any](b, `scrollTo(0,0)`)
	b.wait(`scrollY===0`)
	wheel(-300, 2)
	b.wait(`stats().zoom>1.5`)
	if y := eval[float64](b, `scrollY`); y != 0 {
		t.Errorf("Ctrl and wheel scrolled the page to %g", y)
	}
}

func TestViewSaysWhenThereIsNoWebGL(t *testing.T) {
	b := harness(t, 1, false, "disable-3d-apis")
	b.wait(`told.some(m=>m.kind==='nogl')`)
	if got := eval[string](b, `told.map(m=>m.kind+' '+m.why).join()`); got != "nogl no WebGL 2" {
		t.Errorf("the frame says %q", got)
	}
}

func TestViewSurvivesRubbish(t *testing.T) {
	b := harness(t, 1, false)
	b.show(sheetScene())
	eval[any](b, `port.postMessage(new Uint8Array([9,9,9]).buffer), port.postMessage('x'), tell({kind:'theme',theme:{ink:'none',paper:7}}), tell('fit'), tell({kind:'port'})`)
	b.wait(`told.some(m=>m.kind==='error')`)
	b.show(cartScene(200, 0))
	if got := eval[int](b, `told.filter(m=>m.kind==='dead').length`); got != 0 {
		t.Error("the drawing program died")
	}
}

// The canvas library remembers the density of the screen: the frame starts anew.
func TestViewFollowsTheDensity(t *testing.T) {
	b := harness(t, 1, false)
	b.show(sheetScene())
	b.do(chromedp.EmulateViewport(820, 520, chromedp.EmulateScale(2)))
	eval[any](b, `tell({kind:'theme', theme:light})`) // what the page does now and then
	b.wait(`frame.contentWindow.viewStats && stats().shown && stats().dpr===2`)
	b.still()
	if got := pixel(t, b, 60, 60+frameTop, 2); got != [3]int{0xe3, 0xe9, 0xe4} {
		t.Errorf("a part that is cut is %x", got)
	}
}

func TestViewSaysWhenItDies(t *testing.T) {
	b := harness(t, 1, false)
	b.show(sheetScene())
	eval[any](b, `(()=>{ try { frame.contentWindow.viewTheme() } catch {} })()`) // a call that no page makes: the program panics
	b.wait(`told.some(m=>m.kind==='dead' && m.why)`)
}

// A measurement, not a bar: how fast a large drawing moves without a GPU.
func TestViewSpeed(t *testing.T) {
	b := harness(t, 1, true)
	b.show(cartScene(200, 500))
	eval[any](b, `tell({kind:'in'})`)
	b.wait(`stats().zoom>1.4`)
	b.still()
	before := eval[int](b, `stats().frames`)
	start := time.Now()
	b.touch("touchStart", 400, 200)
	for i := range 60 {
		b.touch("touchMove", 380-float64(i%2)*20, 200)
	}
	b.touch("touchEnd")
	n := eval[int](b, `stats().frames`) - before
	t.Logf("panning 500 parts: %d frames in %v", n, time.Since(start).Round(time.Millisecond))
}
