package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
)

const alt = fyne.KeyModifierAlt

// workCommands lead to the pages of the work and do what is done there.
func workCommands() []*command {
	var all []*command
	digits := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6}
	for i, page := range workPages() {
		all = append(all, &command{id: page.id, words: page.words, help: page.help, menu: menuWork, keys: []key{{digits[i], alt}},
			checked: func(w *Window) bool {
				p, ok := w.panels[stageWork].(*workPanel)
				return ok && w.stage == stageWork && p.page == workPage(i)
			},
			run: func(w *Window) { w.showWork(workPage(i)) }})
	}
	return append(append(all, stepCommands()...), paperRows()...)
}

// stepCommands record steps.
func stepCommands() []*command {
	steps := func(id, words, help string, k key, do func(*workPanel)) *command {
		return &command{id: id, words: words, help: help, menu: menuWork, keys: []key{k}, enabled: hasLeaf,
			run: func(w *Window) { do(w.showWork(workSteps)) }}
	}
	rows := []*command{
		steps("steps-all", "Choose all leaves for the step", "Choose every leaf, to record one step for all.", key{fyne.KeyA, alt}, func(p *workPanel) { p.chooseAll(true) }),
		steps("steps-none", "Choose no leaf for the step", "Let go of the leaves chosen for the step.", key{fyne.KeyN, alt}, func(p *workPanel) { p.chooseAll(false) }),
		steps("steps-due", "Choose the leaves that are due", "Choose the leaves whose next step is the one in the form.", key{fyne.KeyD, alt}, func(p *workPanel) { p.chooseDue() }),
		steps("steps-this", "Choose the leaf in hand for the step", "Choose the leaf that is shown, or let it go.", key{fyne.KeyH, alt}, func(p *workPanel) { p.toggleInHand() }),
		steps("steps-form", "Write the step", "Go to the form of the step.", key{fyne.KeyW, alt}, func(p *workPanel) { p.w.win.Canvas().Focus(p.form.kind) }),
		steps("record-step", "Record the step", "Write the step in the form down for the leaves chosen.", key{fyne.KeyR, ctrl}, func(p *workPanel) { p.form.record() }),
		{id: "own-step", words: "An act of your own…", menu: menuWork, keys: []key{{fyne.KeyO, alt}},
			help: "Add an act to the list of steps, in your own words.", run: (*Window).ownStepDialog},
		{id: "own-recipe", words: "A recipe of your own…", menu: menuWork, keys: []key{{fyne.KeyP, alt | shift}},
			help: "Write down a recipe for paste, or change a published one into yours.",
			run:  func(w *Window) { w.showWork(workPaste).paste.recipeDialog() }},
		{id: "cook-paste", words: "Cooked today", menu: menuWork, keys: []key{{fyne.KeyC, alt}},
			help: "Note that the paste in the form was cooked today.",
			run:  func(w *Window) { w.showWork(workPaste).paste.cooked() }},
	}
	rows[0].newPart = true
	return rows
}

// paperRows write the papers for owner and file, and keep the pictures they
// show.
func paperRows() []*command {
	paper := func(id, words, help string, k key, name string, parts ...pdf.Part) *command {
		return &command{id: id, words: words, help: help, menu: menuWork, keys: []key{k}, enabled: hasLeaf,
			run: func(w *Window) { w.printPaper(name, parts) }}
	}
	rows := []*command{
		{id: "after-scan", words: "Picture after treatment…", menu: menuWork, keys: []key{{fyne.KeyI, alt}}, newPart: true, enabled: hasLeaf,
			help: "Give the side that is shown its picture after treatment.", run: (*Window).afterScanDialog},
		{id: "compare-after", words: "Before and after", menu: menuWork, keys: []key{{fyne.KeyB, alt}}, enabled: hasAfter,
			help: "Show the side before and after treatment, side by side.", run: (*Window).compareAfter},
		paper("paper-estimate", "Estimate as PDF…", "Write the estimate of tissue, paste and hours.", key{fyne.KeyE, alt}, "estimate", pdf.Estimate),
		paper("paper-proposal", "Proposal as PDF…", "Write the proposal for the owner: object, condition, what is to be done, and the estimate.", key{fyne.KeyL, alt}, "proposal", pdf.Proposal, pdf.Estimate),
		paper("paper-order", "Tick sheet of the order as PDF…", "Write the order of the leaves, to be ticked off twice.", key{fyne.KeyK, alt}, "order", pdf.Order),
		paper("paper-days", "Calendar as PDF…", "Write the days at the bench and under weight.", key{fyne.KeyY, alt}, "days", pdf.Calendar),
		paper("paper-report", "Report as PDF…", "Write the report: what was done when by whom, materials, tally, pictures.", key{fyne.KeyR, alt}, "report", pdf.Report),
	}
	rows[2].newPart = true
	return rows
}

// paperCommands are the commands offered on the page of papers.
func paperCommands() []string {
	return []string{"paper-estimate", "paper-proposal", "paper-order", "paper-days", "paper-report", "print", "export"}
}

// printPaper asks where one paper goes and writes it.
func (w *Window) printPaper(name string, parts []pdf.Part) {
	if p := w.session.Path(); p != "" {
		name = strings.TrimSuffix(filepath.Base(p), mendplan.FileSuffix) + "-" + name
	}
	w.choose(choosing{title: t("Write the PDF"), verb: t("Write"), suffix: []string{".pdf"}, name: fileName(name) + ".pdf"}, func(paths []string) {
		w.writePDF(paths[0], w.session.Job(), parts, true)
	})
}
