package page

// bottomTrade says, beside the choice of the bottoms' sheet, what another one
// would weigh and how far it would sag, as Check reckons it.
func (b *builder) bottomTrade() node {
	t := b.Report.Bottom
	if t.Drawer == "" {
		return nodes{}
	}
	rows := nodes{el("p", attr{"class", "small"}, rich(t.Drawer+": the bottom sags "+t.Sag+", "+t.Limit+" is the limit."))}
	for _, o := range t.Others {
		rows = append(rows, el("p", attr{"class", "small"}, rich(o.Cause+": "+o.Factors+", sags "+o.Result+" instead of "+t.Sag+".")))
	}
	return rows
}
