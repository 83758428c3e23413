package pages

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"
	"fretband/export/handover"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Sizes of the question: the list of receivers, what they are asked, and the height of
// the one who is asked the most, so that nothing moves from one to the other.
const (
	receiversWidth = 172
	askedWidth     = 470
	AskedHeight    = 470
	questionGap    = 26
	questionWidth  = receiversWidth + questionGap + askedWidth
)

// handOverQuestion is the dialog that asks who receives the files and what the files
// depend on. It shows what concerns that receiver and keeps the rest for the next time.
type handOverQuestion struct {
	HandOver
	x         app.HandOver
	d         *kit.Dialog
	dir, name *kit.Entry
	receivers []*kit.Button
	side      *fyne.Container // receivers, and under them what is made
	makes     *fyne.Container
	asked     *fyne.Container
	fields    *handOverFields
	sheet     *cutSheetView
	word      *kit.Passage // what is wrong, or is done
	warning   string       // of broken rules, while there is nothing else to say
}

func (ho HandOver) ask() {
	k := ho.Kit
	q := &handOverQuestion{HandOver: ho, x: ho.Settings.HandOver, word: k.Passage("", kit.Warn, questionWidth), sheet: newCutSheetView(k)}
	if q.x.Folder == "" {
		q.x.Folder = ho.Settings.Folder
		if ho.Ed.Doc.Path != "" {
			q.x.Folder = filepath.Dir(ho.Ed.Doc.Path)
		}
	}
	if q.x.Folder == "" {
		q.x.Folder, _ = os.UserHomeDir() // or nothing, and it is asked for
	}
	if p := ho.Ed.Now().Rules.Process; p != "" {
		q.x.Process = p // the design's own, whatever was said last of another
	}
	q.dir, q.name = q.entry(q.x.Folder), q.entry(suggestedName(ho.Ed))
	do := "Hand over"
	if n, first := app.Breaches(ho.Ed.Scene.Report.Findings); n > 0 {
		q.warning, do = breachWords(n, first), "Hand over all the same"
	}

	list := kit.Down(2, k.Label("Who receives the files", kit.Head))
	keys := []string{}
	for _, v := range export.Receivers() {
		keys = append(keys, v.Key)
		q.receivers = append(q.receivers, k.Button(v.Title, v.What, func() { q.chooseReceiver(v.Key) }))
	}
	keys = append(keys, app.Anyone)
	q.receivers = append(q.receivers, k.Button(export.Anyone().Title, export.Anyone().What, func() { q.chooseReceiver(app.Anyone) }))
	for _, b := range q.receivers {
		b.Left = true
		list.Add(b)
	}
	open := k.Tick("Open the folder afterwards", !q.x.LeaveFolder, func(on bool) { q.x.LeaveFolder = !on })

	q.makes, q.asked = kit.Down(1), kit.Down(3)
	list.Add(kit.Inset(0, 14, 0, 0, k.Label("What is made", kit.Head)))
	list.Add(kit.Inset(7, 0, 0, 0, q.makes))
	list.Add(kit.Inset(7, 0, 0, 0, q.sheet.box))
	q.side = list
	split := container.New(kit.Columns{Widths: []float32{receiversWidth, askedWidth}, Gap: questionGap, Top: true}, list, q.asked)
	body := kit.Down(4, kit.Sized(questionWidth, AskedHeight, split),
		kit.Sized(questionWidth, 26, open), kit.Sized(questionWidth, 34, q.word))
	q.d = ho.Kit.Dialogs.Ask("Hand over", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: do, Main: true, Stay: true, Do: q.take})
	for i, key := range keys {
		q.d.Named("for-"+forWord(key), q.receivers[i])
	}
	q.d.Named("folder", q.dir)
	q.d.Named("name", q.name)
	q.d.Named("open", open)
	q.show()
	q.fail("")
	ho.Kit.Dialogs.Focus(q.name)
	ho.Ed.Log.Event("dialog", "name", "hand over")
}

// forWord is a receiver's key, also of the one who has none.
func forWord(key string) string {
	if key == app.Anyone {
		return "anyone"
	}
	return key
}

func (q *handOverQuestion) entry(text string) *kit.Entry {
	e := q.Kit.Dialogs.Entry(text)
	e.OnChanged = func(string) {
		q.fail("") // what was wrong is being mended
		q.layOut()
	}
	return e
}

// suggestedName is what the files are called unless another name is given.
func suggestedName(ed *app.Editor) string {
	if d := ed.Now(); ed.Doc.Path == "" && !d.Named() {
		return handover.FileName(export.Title(d))
	}
	return handover.FileName(ed.Doc.Title())
}

func (q *handOverQuestion) partName() string { return strings.TrimSpace(q.name.Text) }

// chooseReceiver asks for another receiver; what has been typed for this one is kept.
func (q *handOverQuestion) chooseReceiver(key string) {
	q.fields.keep(&q.x)
	q.x.For = key
	q.fail("")
	q.show()
	q.Ed.Log.Event("receiver", "key", key)
}

// show builds what the receiver is asked.
func (q *handOverQuestion) show() {
	k := q.Kit
	for i, b := range q.receivers {
		key := app.Anyone
		if rs := export.Receivers(); i < len(rs) {
			key = rs[i].Key
		}
		b.Choose(key == q.x.For)
	}
	place := func(title, tip string, objs ...fyne.CanvasObject) fyne.CanvasObject {
		cols := kit.Columns{Widths: []float32{askLabel, 0}, Gap: askGap, Height: rowHeight}
		if len(objs) > 1 {
			cols.Widths = append(cols.Widths, 78)
		}
		return container.New(cols, append([]fyne.CanvasObject{k.Label(title, kit.Plain).Teach(tip)}, objs...)...)
	}
	q.fields = newHandOverFields(q)
	to, _ := export.ReceiverByKey(q.x.For)
	q.asked.Objects = []fyne.CanvasObject{
		kit.Inset(0, 0, 0, 5, k.Label(to.What, kit.Plain)),
		place("Folder", "Where the files go. It is made if it is missing.", q.dir, k.Button("Choose", "", func() {
			q.Choose(chooseFolder, q.dir.Text, "", func(p string) { q.dir.SetText(p) })
		}).Framed()),
		place("Name", "Of the files, without a suffix. Files of this design that have the same name are replaced.", q.name),
	}
	q.asked.Objects = append(q.asked.Objects, q.fields.rows...)
	if len(q.fields.rows) == 0 {
		q.asked.Add(kit.Inset(0, 8, 0, 0, k.Label("There is nothing else to ask.", kit.Soft)))
	}
	if app.CutsSheet(q.x.For) {
		q.sheet.box.Show()
		q.layOut()
	} else {
		q.sheet.box.Hide()
	}
	q.asked.Refresh()
	q.showMade()
	q.d.Fields = append(q.d.Fields[:len(q.receivers)+3:len(q.receivers)+3], q.fields.named...)
	q.Opened()
}

// showMade lists what is made by the answers.
func (q *handOverQuestion) showMade() {
	q.makes.Objects = nil
	for _, f := range q.formatsFor() {
		q.makes.Add(kit.AtLeast(receiversWidth-14, 19, q.Kit.Label(f.Title, kit.Soft)))
	}
	q.side.Refresh() // below it the picture of the sheet moves
}

// layOut shows how the parts lie on their sheet by what is typed now, as far as it can
// be read.
func (q *handOverQuestion) layOut() {
	if q.fields == nil || !app.CutsSheet(q.x.For) {
		return
	}
	now := q.x
	q.fields.keep(&now)
	q.sheet.ask(q.Desk, now)
}

// fail says what is wrong; nothing is, but for broken rules, if why is empty.
func (q *handOverQuestion) fail(why string) {
	if why == "" {
		why = q.warning
	}
	q.say(why, kit.Warn)
}

func (q *handOverQuestion) say(words string, v kit.Voice) {
	q.word.Set(words, v, questionWidth)
	q.word.Refresh()
}

// take reads the answers and makes the files; what is wrong with them is said here.
func (q *handOverQuestion) take() {
	if e, err := q.fields.read(&q.x); err != nil {
		q.fail(sentence(err.Error()))
		q.Kit.Dialogs.Focus(e)
		return
	}
	if err := q.x.Asked().Check(); err != nil {
		q.fail(sentence(err.Error()))
		return
	}
	if err := handover.CheckName(q.partName()); err != nil {
		q.fail(sentence(err.Error()))
		return
	}
	if strings.TrimSpace(q.dir.Text) == "" {
		q.fail("Give a folder.")
		return
	}
	to, err := filepath.Abs(strings.TrimSpace(q.dir.Text))
	if err != nil {
		q.fail(sentence(err.Error()))
		return
	}
	q.x.Folder = to
	q.Settings.HandOver = q.x
	q.SaveSettings()
	q.make(false)
}

// make makes the files.
func (q *handOverQuestion) make(replace bool) {
	q.say("Making the files. Large designs take a while.", kit.Plain)
	q.d.Main.SetOff(true)
	title := "" // the design's own
	if n := q.partName(); n != suggestedName(q.Ed) {
		title = n
	}
	q.makeFiles(q.x, q.partName(), title, replace, q.finish)
}

// finish says what came of it. If nothing was written the question stays, so that
// the answers can be changed.
func (q *handOverQuestion) finish(h handed) {
	q.d.Main.SetOff(false)
	var others *handover.StrangersError
	switch {
	case h.err != nil && q.d.Closed:
		q.refuse(h.err)
	case errors.As(h.err, &others):
		q.fail("")
		q.askToReplace(others)
	case h.err != nil:
		q.fail(sentence(h.err.Error()))
	default:
		q.d.Close()
		q.tellHanded(h)
	}
}

// askToReplace asks whether files of other designs may be lost.
func (q *handOverQuestion) askToReplace(e *handover.StrangersError) {
	const wide = 470
	k := q.Kit
	rows := kit.Down(3, k.Passage("The folder holds files of the same names that are not of this design:", kit.Plain, wide), k.Gap(3))
	files := map[string][]string{}
	var designs []string // in the order in which their files come
	for _, f := range e.Files {
		design := "of no known design"
		if f.Content != "" {
			design = fmt.Sprintf("of %s, content number %s", f.Name, f.Content)
		}
		if files[design] == nil {
			designs = append(designs, design)
		}
		files[design] = append(files[design], f.File)
	}
	for _, d := range designs {
		rows.Add(k.Passage(strings.Join(files[d], ", "), kit.Strong, wide))
		rows.Add(k.Passage(d, kit.Soft, wide))
		rows.Add(k.Gap(6))
	}
	rows.Add(k.Passage("Replacing them can't be undone. To keep them, go back and choose another folder or name.", kit.Plain, wide))
	q.Ed.Log.Event("refused", "what", "hand over", "why", e)
	q.Kit.Dialogs.Ask("Files of another design are there", rows, nil,
		kit.Answer{Text: "Replace them", Do: func() { q.make(true) }},
		kit.Answer{Text: "Go back", Main: true})
}
