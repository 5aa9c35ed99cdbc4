package page

import (
	"strconv"

	"cartwright/engine/check"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

var grains = []option{{"", "not said"}, {"length", "along the length"}, {"width", "along the width"}, {"none", "none"}}

// stock is what there is to build from. What a thickness measures stands
// first: one such number moves every part that meets it.
func (b *builder) stock() node {
	s := b.Project.Stock
	out := nodes{el("h2", text("Material"))}
	for i, m := range s.Materials {
		path := "stock.materials." + strconv.Itoa(i)
		nominal := hint{inUse: m.Nominal, note: "as its name says; measure yours"}
		if m.Measured != 0 {
			nominal.note = ""
			if m.Nominal != 0 {
				nominal.note = "sold as " + b.t.ShowExact(m.Nominal)
			}
		}
		out = append(out, b.length(path+".measured", or(m.Name, m.ID)+", measured", m.Measured, nominal))
	}
	if len(s.Materials) == 0 {
		out = append(out, el("p", attr{"class", "small"}, text("No materials yet. Add one, then its sheet.")))
	}
	kinds := nodes{}
	for i, m := range s.Materials {
		path := "stock.materials." + strconv.Itoa(i)
		kinds = append(kinds, b.entry("stock.materials", i, or(m.Name, m.ID, "Material "+strconv.Itoa(i+1)),
			b.name(path+".name", "Name", m.Name, ""),
			b.name(path+".id", "Short name, used in lists", m.ID, ""),
			b.choice(path+".kind", "Kind", or(m.Kind, "plywood"), option{"plywood", "plywood"}, option{"mdf", "fibreboard (MDF)"}, option{"solid", "solid wood"}),
			b.length(path+".nominal", "Sold as", m.Nominal, hint{}),
			b.whole(path+".faces", "Good faces", m.Faces, "2", ""),
			when(m.Kind == "solid", b.choice(path+".species", "Wood", m.Species, woods...)),
			b.number(path+".density", "Density", m.Density, b.density(m), "kg/m³"),
			b.number(path+".modulus", "Stiffness along the grain", m.Modulus, b.modulus(m), "N/mm²"),
			b.length(path+".scatter", "Sheets differ by ±", m.Scatter, hint{note: "by its kind, if empty"}),
			b.name(path+".finish", "Finish", m.Finish, "none")))
	}
	sheets := nodes{}
	for i, x := range s.Sheets {
		path := "stock.sheets." + strconv.Itoa(i)
		sheets = append(sheets, b.entry("stock.sheets", i, or(x.ID, "Sheet "+strconv.Itoa(i+1)),
			b.name(path+".id", "Name", x.ID, ""),
			b.material(path+".material", "Material", x.Material),
			b.length(path+".length", "Length", x.Length, hint{note: "the least it may measure"}),
			b.length(path+".width", "Width", x.Width, hint{}),
			b.choice(path+".grain", "Grain", x.Grain, grains...),
			b.price(path+".price", "Price", x.Price, "of one"),
			b.whole(path+".count", "How many there are", x.Count, "as needed", "")))
	}
	boards := nodes{}
	for i, x := range s.Boards {
		path := "stock.boards." + strconv.Itoa(i)
		boards = append(boards, b.entry("stock.boards", i, or(x.ID, "Board "+strconv.Itoa(i+1)),
			b.name(path+".id", "Name", x.ID, ""),
			b.material(path+".material", "Material", x.Material),
			b.length(path+".length", "Length", x.Length, hint{}),
			b.length(path+".width", "Width", x.Width, hint{}),
			b.price(path+".price", "Price", x.Price, "of one"),
			b.whole(path+".count", "How many there are", x.Count, "as needed", "")))
	}
	offcuts := nodes{}
	for i, x := range s.Offcuts {
		path := "stock.offcuts." + strconv.Itoa(i)
		offcuts = append(offcuts, b.entry("stock.offcuts", i, or(x.ID, "Offcut "+strconv.Itoa(i+1)),
			b.name(path+".id", "Name", x.ID, ""),
			b.material(path+".material", "Material", x.Material),
			b.length(path+".length", "Length", x.Length, hint{}),
			b.length(path+".width", "Width", x.Width, hint{}),
			b.choice(path+".grain", "Grain", x.Grain, grains...),
			b.length(path+".trim", "Take off each edge", x.Trim, hint{}),
			b.whole(path+".count", "How many", x.Count, "1", "")))
	}
	hardware := nodes{}
	for i, x := range s.Hardware {
		path := "stock.hardware." + strconv.Itoa(i)
		hardware = append(hardware, b.entry("stock.hardware", i, or(x.Name, x.ID, "Thing "+strconv.Itoa(i+1)),
			b.name(path+".name", "Name", x.Name, ""),
			b.name(path+".id", "Short name: slides, caster, pull, edging, abrasive, finish, …", x.ID, ""),
			b.price(path+".price", "Price", x.Price, "of a pack"),
			b.whole(path+".pack", "In a pack", x.Pack, "1", ""),
			b.whole(path+".home", "At home already", x.AtHome, "0", ""),
			b.mass(path+".weight", "One weighs", x.Weight, "")))
	}
	return append(out,
		more("materials", "Materials ("+strconv.Itoa(len(s.Materials))+")", kinds, b.add("stock.materials", "a material")),
		more("sheets", "Sheets for sale ("+strconv.Itoa(len(s.Sheets))+")", sheets, b.add("stock.sheets", "a sheet")),
		more("boards", "Boards for sale ("+strconv.Itoa(len(s.Boards))+")", boards, b.add("stock.boards", "a board")),
		more("offcuts", "Offcuts at home ("+strconv.Itoa(len(s.Offcuts))+")", offcuts, b.add("stock.offcuts", "an offcut"), b.bookOffer()),
		more("hardware", "Hardware and prices ("+strconv.Itoa(len(s.Hardware))+")", hardware, b.add("stock.hardware", "a thing")))
}

// storeFields is what the store's saw does, and for how much.
func (b *builder) storeFields() node {
	s := b.Project.Store
	in, mm := measure.Inch, measure.MM
	return more("store", "The store's saw",
		b.row(field{path: "store.cuts", label: "Most cuts per sheet", value: s.Cuts, shown: or(s.Cuts, "no limit"), inUse: "no limit", note: "a number, or none if the store does not cut"}),
		b.whole("store.freeCuts", "Cuts free of charge", s.FreeCuts, "0", ""),
		b.price("store.price", "Price of each further cut", s.Price, ""),
		b.length("store.kerf", "Kerf", s.Kerf, b.usual(in/8, mm*16/5)),
		b.length("store.trim", "Taken off each store edge at home", s.Trim, b.usual(in/4, 6*mm)),
		b.length("store.accuracy", "Holds a measure within", s.Accuracy, hint{}),
		b.length("store.least", "Narrowest strip", s.Least, hint{}))
}

// car is what the pieces must fit.
func (b *builder) car() node {
	c := b.Project.Car
	limits := item(nil)
	if !c.Delivered {
		limits = nodes{
			b.length("car.floorLength", "Floor, length", c.FloorLength, hint{}),
			b.length("car.floorWidth", "Floor, width", c.FloorWidth, hint{note: "between the wheel arches"}),
			b.length("car.openingWidth", "Opening, width", c.OpeningWidth, hint{}),
			b.length("car.openingHeight", "Opening, height", c.OpeningHeight, hint{}),
			b.length("car.longest", "Longest thin thing", c.Longest, hint{note: "over the seats"}),
			b.mass("car.most", "Carries at most", c.Most, ""),
		}
	}
	return more("car", "The car",
		b.tickbox("car.delivered", "The store delivers whole sheets", c.Delivered),
		when(c.Delivered, b.price("car.delivery", "Price of the delivery", c.Delivery, "")),
		limits)
}

// saws is what the shop cuts with.
func (b *builder) saws() node {
	out := nodes{}
	for i, s := range b.Project.Shop.Saws {
		path := "shop.saws." + strconv.Itoa(i)
		out = append(out, b.entry("shop.saws", i, or(s.Name, s.Kind, "Saw "+strconv.Itoa(i+1)),
			b.name(path+".name", "Name", s.Name, ""),
			b.choice(path+".kind", "Kind", or(s.Kind, "table"), option{"table", "table saw"}, option{"track", "track saw"}, option{"mitre", "mitre saw"}, option{"hand-held", "hand-held saw"}),
			b.length(path+".kerf", "Kerf", s.Kerf, hint{note: "cut a slot in scrap and measure it"}),
			b.length(path+".rip", "Widest rip", s.Rip, hint{}),
			b.length(path+".crosscut", "Widest crosscut", s.Crosscut, hint{}),
			b.length(path+".length", "Longest cut", s.Length, hint{})))
	}
	return more("saws", "Saws ("+strconv.Itoa(len(b.Project.Shop.Saws))+")", out, b.add("shop.saws", "a saw"),
		b.length("shop.accuracy", "Your cuts are true within", b.Project.Shop.Accuracy, b.usual(measure.Inch/32, measure.MM*4/5)))
}

// extra are lines of a plain cut list that ride along on the same sheets.
func (b *builder) extra() node {
	out := nodes{}
	for i, x := range b.Project.Extra {
		path := "extra." + strconv.Itoa(i)
		out = append(out, b.entry("extra", i, or(x.Name, "Extra part "+strconv.Itoa(i+1)),
			b.name(path+".name", "Name", x.Name, ""),
			b.length(path+".length", "Length", x.Length, hint{note: "along the grain"}),
			b.length(path+".width", "Width", x.Width, hint{}),
			b.length(path+".thickness", "Thickness", x.Thickness, hint{}),
			b.whole(path+".count", "Pieces", x.Count, "1", ""),
			b.choice(path+".grain", "Grain", or(x.Grain, "length"), option{"length", "along the length"}, option{"width", "along the width"}, option{"free", "any way"}),
			b.material(path+".material", "Material", x.Material)))
	}
	return more("extra", "Extra parts on the same sheets ("+strconv.Itoa(len(b.Project.Extra))+")",
		el("p", attr{"class", "small"}, text("Anything else you want cut along with the cart.")),
		out, b.add("extra", "a part"))
}

// woods are the species that the checks know.
var woods = func() []option {
	out := []option{{"", "not said: the softest, the one that moves most"}}
	for _, w := range stock.Woods {
		out = append(out, option{w.Name, w.Name})
	}
	return out
}()

// density and modulus are what is used while nothing is entered.
func (b *builder) density(m project.Material) float64 {
	m.Density = 0
	v, _ := check.Density(m)
	return v
}

func (b *builder) modulus(m project.Material) float64 {
	m.Modulus = 0
	v, _ := check.Modulus(m)
	return v / 1e6
}
