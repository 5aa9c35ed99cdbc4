package page

// What the page can ask for. Every control in the fragments carries its wish
// as attributes; the page's script finds the nearest element with data-do and
// acts, so no fragment holds a script.
//
// # Document actions: to the planner worker
//
// One of these is one step of undo.
//
//	set      data-path  the control's value goes through project.Set. Sent on
//	                    "change" of an <input> or <select> (Enter included),
//	                    never while typing. A checkbox sends "true" or "".
//	nudge    data-path, data-by="step"|"-step"   one step of the tape more or
//	                    less. Without data-path: the field in focus. A field
//	                    that is empty starts from its data-value, the value
//	                    in use.
//	add      data-path, data-at    project.Insert; no data-at: at the end
//	remove   data-path, data-at    project.Remove
//	swap     data-path, data-at    project.Swap: this entry and the next
//	tape     data-to="inch/16|inch/32|inch/64|mm/1|mm/0.5"   unit and step
//	undo, redo
//	mark     data-cut   these cuts are made, store or shop: one ID, or several
//	                    with spaces between them, in the order of the work (a
//	                    shop cut is preceded by the store cuts it implies)
//	unmark   data-cut   this cut is not made
//	measured            the piece asked about has the size in the field "came",
//	                    which set and nudge reach by that path
//	accept              hold the plan on the screen
//	rival    data-to="this|other"   which of two plans in use goes on
//	replan              plan what is not yet cut again
//	take                the plan on offer is the one in use; leave: it is not
//	counter  data-to="few|none|size|delivered"   what is said at the store's
//	                    counter; "kind" (data-value), "more", "less" answer its
//	                    form, "plan" offers a plan, "" closes it
//	book     data-to="put|take|strike", data-id   the offcuts book
//	spoil    data-cut, data-at   this piece of what the cut made is spoiled
//	flaw     data-to="open|corner|note|"   a corner is bad
//	cheaper  data-ref, data-value   take an offer: the size, and by how much
//	spacer   data-at    the block of this set-out goes on the cut list
//	guide    data-ref   the pieces of this drilling guide go there
//
// # View actions: to the planner worker, not undone
//
//	place    data-to    go to a place ("size" … "check"); with data-path the
//	                    focus goes to the field of that path, if it has one
//	select   data-ref   choose a thing ("part/A", "cut/0/r.1", "sum/2",
//	                    "finding/0"); "" chooses nothing
//	size     data-cut   ask what the piece of this cut measures; "" no more
//	sheet    data-at    show this sheet
//	look     data-to    see the cart from the front (""), "side" or "plan"
//	stop, more          end the search; search on
//	open     data-id    open a stored project
//	new      data-to    begin from a starting point, by the name of its file
//	copy                go on with a copy of this project
//	delete   data-id    delete a stored project; the page offers undo
//	takeover            the other tab loses the right to write
//	export              the project as a file
//	share               a link that holds the project
//	embed               the tag that puts this plan on another page
//	csv                 the cut list as a file
//	template            1:1 templates as a PDF file
//	ics                 the finishing as a calendar; the control's value is
//	                    the hour it begins, "2026-11-28T09:00"
//	print    data-to="parts|cards|saw|labels|bench"   [Print] into #print, then print
//
// # Page actions: the script alone
//
//	menu, close         open and close <dialog id="menu">; data-to="tape"
//	                    brings the element "menu-tape" into sight
//	import              a file dialog; the text goes to the worker
//	merge               so too: the same project as another device has it
//	theme    data-to="light|dark|auto"   data-theme on <html>, kept
//	tab      data-to="lineup|bays|drawers|base|more" at Size, "cut|sheet|list"
//	                    at Saw: data-tab on <body>, what a phone shows there
//	key      data-to="1/2|1/4|1/8|1/16"   puts this fraction in the field in
//	                    focus in place of the one it has; "undo" of typing is
//	                    the browser's
//	fit, in, out        zoom of the drawing
//
// # What the script keeps for the style sheet
//
//	<html data-theme>   "light", "dark"; absent: as the system says
//	<body data-place>   from [Flags], as are data-readonly, data-embedded,
//	                    data-held, data-chosen
//	<body data-tab>     see tab; a missing one means "lineup" or "sheet"
//	<body data-keys>    present while a field with data-len is in focus
//	<body data-canvas>  "on" while the canvas shows the scene: hides #drawing
//	<body data-print>   "parts", "cards", "saw", "labels", "bench" while printing
//	<body data-offline> "ready" or "refused": whether all is kept for use
//	                    without a network; the menu says so
//	--kb on <html>      height of the on-screen keyboard, from visualViewport
//
// # Patching
//
// [Panels] returns every panel of the skeleton, the strip first; one that the
// place does not use is empty, and :empty hides it. The script sets
// innerHTML of those whose text has changed, and must keep:
//   - the focus: all controls have an id that stays; give it back by id, with
//     the selection of a text input;
//   - the text of an input that is being typed in;
//   - open <details>: they carry data-keep, a key that stays;
//   - the scroll position of #main, #col, #dock.
//
// After a patch that changed where [data-now] stands (the next cut in the
// list), the script brings it into sight: scrollIntoView({block: "nearest"}).
//
// An <input> whose value is a length shows built fractions in a span over it
// while it is not in focus (.shown). The script sets data-typed on the input
// at its first "input" event, so that what was typed stays in sight until the
// planner's answer replaces the row.
//
// Rows of tables that can be tapped carry data-do too, and hold a <button>
// with the same action: the nearest one alone acts.
type action = string

// The names of the actions, as data-do has them.
const (
	doSet      action = "set"
	doNudge    action = "nudge"
	doAdd      action = "add"
	doRemove   action = "remove"
	doSwap     action = "swap"
	doTape     action = "tape"
	doUndo     action = "undo"
	doRedo     action = "redo"
	doMark     action = "mark"
	doUnmark   action = "unmark"
	doAccept   action = "accept"
	doReplan   action = "replan"
	doMeasured action = "measured"
	doAsk      action = "size"
	doPlace    action = "place"
	doSelect   action = "select"
	doSheet    action = "sheet"
	doLook     action = "look"
	doStop     action = "stop"
	doMore     action = "more"
	doOpen     action = "open"
	doNew      action = "new"
	doCopy     action = "copy"
	doDelete   action = "delete"
	doTakeOver action = "takeover"
	doExport   action = "export"
	doShare    action = "share"
	doEmbed    action = "embed"
	doICS      action = "ics"
	doSpacer   action = "spacer"
	doTake     action = "take"
	doLeave    action = "leave"
	doCounter  action = "counter"
	doSpoil    action = "spoil"
	doFlaw     action = "flaw"
	doCheaper  action = "cheaper"
	doGuide    action = "guide"
	doBook     action = "book"
	doTemplate action = "template"
	doCSV      action = "csv"
	doPrint    action = "print"
	doMenu     action = "menu"
	doClose    action = "close"
	doImport   action = "import"
	doMerge    action = "merge"
	doRival    action = "rival"
	doTheme    action = "theme"
	doKey      action = "key"
)

// do is the attributes of an action: its name, then pairs of a data attribute
// and its value.
func do(name action, pairs ...string) attrs {
	a := attrs{{"data-do", name}}
	for i := 0; i+1 < len(pairs); i += 2 {
		a = append(a, attr{"data-" + pairs[i], pairs[i+1]})
	}
	return a
}

// attrs is several attributes as one item.
type attrs []attr

func (a attrs) join(e *element) { e.attrs = append(e.attrs, a...) }

// button is a control that acts when tapped.
func button(class string, what attrs, items ...item) *element {
	b := el("button", attr{"type", "button"})
	if class != "" {
		attr{"class", class}.join(b)
	}
	what.join(b)
	for _, it := range items {
		if it != nil {
			it.join(b)
		}
	}
	return b
}
