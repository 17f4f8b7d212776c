package mendplan

// estimate adds up what the layouts and the pieces take.
func estimate(job Job, pieces []Piece, layouts []TissueLayout) Estimate {
	rules := InForce{Job: job.Rules}
	var out Estimate
	for _, l := range layouts {
		out.Tissues = append(out.Tissues, tissueEstimate(job, pieces, l, rules))
	}
	pasted := 0.0
	for _, p := range pieces {
		pasted += p.PasteMM2
	}
	out.Paste = EstimatePaste(pasted, rules)
	return out
}

func tissueEstimate(job Job, pieces []Piece, l TissueLayout, rules InForce) TissueEstimate {
	tissue, _ := job.Tissue(l.Tissue)
	e := TissueEstimate{Tissue: l.Tissue}
	for _, p := range pieces {
		if p.Tissue == l.Tissue {
			e.Pieces++
			e.PiecesMM2 += p.AreaMM2
			e.BlanksMM2 += p.BlankLengthMM * p.BlankWidthMM
		}
	}
	for _, s := range l.Layout.Sheets {
		switch {
		case s.Roll:
			e.RollMM += s.H
			e.Cost += s.Price // of the length cut off
		case s.Remnant:
			e.Remnants++
			e.Cost += s.Price
		default:
			e.Sheets++
			e.Cost += s.Price
		}
		e.OpenedMM2 += s.W * s.H
		for _, r := range s.Remnants {
			if r.Keep {
				e.KeptMM2 += r.W * r.H
			}
		}
		e.Currency = currencyOf(job, s.Stock, e.Currency)
	}
	e.MassG = e.PiecesMM2 / mm2PerM2 * tissue.Grammage
	if used := e.OpenedMM2 - e.KeptMM2; used > 0 {
		e.Yield = e.PiecesMM2 / used
	}
	e.SpareMM2 = e.BlanksMM2 * rules.Number(SpareShare) / 100
	return e
}

// currencyOf takes the first currency named; stock of one tissue in several
// currencies is told as a mix.
func currencyOf(job Job, stock, sofar string) string {
	for _, s := range job.Stock {
		if s.ID != stock || s.Currency == "" || s.Currency == sofar {
			continue
		}
		if sofar == "" {
			return s.Currency
		}
		return "mixed currencies"
	}
	return sofar
}
