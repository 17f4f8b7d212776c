package draw

// advert prints one advertisement in a box across the page.
func (p *Sheet) advert(y0, y1 float64, name, line, where string, picture func(c Pt, h float64), right bool) {
	x0, x1 := marginX-3, p.W-marginX+3
	p.line(0.55, Pt{x0, y0}, Pt{x1, y0}, Pt{x1, y1}, Pt{x0, y1}, Pt{x0, y0})
	p.line(0.16, Pt{x0 + 1.2, y0 + 1.2}, Pt{x1 - 1.2, y0 + 1.2}, Pt{x1 - 1.2, y1 - 1.2}, Pt{x0 + 1.2, y1 - 1.2}, Pt{x0 + 1.2, y0 + 1.2})
	h := (y1 - y0) * 0.62
	px, tx := x0+h*0.78, x0+h*1.5+(x1-x0-h*1.5)/2
	if right {
		px, tx = x1-h*0.78, x0+(x1-x0-h*1.5)/2
	}
	m := (y0 + y1) / 2
	picture(Pt{px, m}, h)
	p.set(style{bold, 13, 40}, tx, m-5, 0.5, name)
	p.set(style{italic, 9, 0}, tx, m+2, 0.5, line)
	p.set(small, tx, m+9, 0.5, where)
}

func advertsTen(p *Sheet) {
	p.folio(10, "Our Friends in Trade")
	p.advert(22, 70, "HATTERSBIE’S", "hats for heads of every size", "TOP OF CORN STAIR", p.topHat, false)
	p.advert(75, 123, "THE COPPER LADLE", "tea, and a second pot", "ASSEMBLY ROOMS YARD", p.teapot, true)
	p.inSpot(true)
	p.advert(128, 170, "ORRIN DUNFLETE", "umbrellas re-covered overnight", "9 WEATHER ROW", p.umbrella, false)
	p.inSpot(false)
}

func advertsFifteen(p *Sheet) {
	p.folio(15, "Our Friends in Trade")
	p.advert(22, 66, "TIDEWELL & DAUGHTER", "every boat in the harbour, framed", "GALLERY ON THE MOLE", p.boat, true)
	p.line(0.55, Pt{marginX - 3, 72}, Pt{p.W - marginX + 3, 72}, Pt{p.W - marginX + 3, 120}, Pt{marginX - 3, 120}, Pt{marginX - 3, 72})
	p.centred(style{bold, 14, 60}, 83, "MELLISHORNE’S PIANOS")
	p.centred(style{italic, 9, 0}, 89.5, "tuned, moved, hired and forgiven")
	p.keyboard(marginX+6, 95, p.W-2*marginX-12, 15)
	p.centred(small, 116, "UPSTAIRS AT 2 BELLOWS CLOSE")
	p.advert(126, 170, "BRASS & SON", "horns mended, dents drawn", "UNDER THE CLOCK", p.horn, false)
}

func finale(p *Sheet) {
	p.folio(16, "Quillhaven Musical Society")
	p.inSpot(true)
	p.guilloche(Pt{p.W / 2, 62}, 34, 0.14)
	p.lyre(Pt{p.W / 2, 62}, 26)
	p.inSpot(false)
	p.centred(head, 116, "Carriages at Ten")
	p.rule(122, 60)
	p.centred(lean, 132, "The company is asked to leave by the sea door,")
	p.centred(lean, 138, "the street door being wanted for the harp.")
	p.centred(style{smallCaps, 9, 80}, 154, "Printed by hand for the Society")
	p.centred(style{smallCaps, 9, 80}, 160, "at the sign of the Dry Inkpot")
}

// spreadLeft and spreadRight are the pages of the middle opening.
func spreadLeft(p *Sheet) {
	p.folio(8, "The Orchestra")
	p.centred(head, 29, "The Players")
	p.rule(34, 60)
	y := 43.0
	for _, group := range orchestra {
		p.inSpot(true)
		p.set(subhead, marginX, y, 0, group[0])
		p.inSpot(false)
		y = p.block(body, marginX+27, y, p.W-2*marginX-27, bodyLead, group[1]) + 2.6
	}
}

func spreadRight(p *Sheet) {
	p.folio(9, "The Orchestra")
	p.centred(head, 29, "The Platform")
	p.centred(lean, 35, "as it appears from the gallery")
	p.rule(39, 60)
	p.inSpot(true)
	p.platform(Pt{p.W / 2, 104}, 47, []int{6, 9, 11, 14, 16, 18})
	p.inSpot(false)
	p.centred(style{smallCaps, 8, 80}, 112, "Mr Penhaskett")
	p.block(body, marginX, 124, p.W-2*marginX, bodyLead, platformWords)
	p.waves(30, 102, 164, 2, 0.22)
}
