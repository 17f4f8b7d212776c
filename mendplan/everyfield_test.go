package mendplan_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
)

// words are true ones for the types that know only some.
var words = map[reflect.Type]string{
	reflect.TypeFor[mendplan.Units]():      "in",
	reflect.TypeFor[mendplan.Paper]():      string(mendplan.Letter),
	reflect.TypeFor[mendplan.Grain]():      string(mendplan.GrainAcross),
	reflect.TypeFor[mendplan.LeafKind]():   string(mendplan.SingleLeaf),
	reflect.TypeFor[mendplan.Origin]():     string(mendplan.FromCorners),
	reflect.TypeFor[mendplan.DamageKind](): string(mendplan.Tear),
	reflect.TypeFor[mendplan.SideName]():   string(mendplan.Back),
	reflect.TypeFor[mendplan.HandSide]():   string(mendplan.OnRight),
	reflect.TypeFor[mendplan.EndKind]():    string(mendplan.EndBlind),
	reflect.TypeFor[mendplan.Severity]():   string(mendplan.Severe),
	reflect.TypeFor[mendplan.Style]():      string(mendplan.Strips),
	reflect.TypeFor[mendplan.RuleKey]():    string(mendplan.SideMargin),
	reflect.TypeFor[mendplan.TissueUse]():  string(mendplan.ForInfills),
	reflect.TypeFor[mendplan.StockKind]():  string(mendplan.Remnant),
	reflect.TypeFor[mendplan.Half]():       string(mendplan.SecondHalf),
	reflect.TypeFor[mendplan.Missing]():    string(mendplan.SecondMissing),
	reflect.TypeFor[mendplan.StepKind]():   string(mendplan.Washed),
	reflect.TypeFor[mendplan.TestResult](): string(mendplan.Bleeds),
}

// filler gives every field of a value something that is not its zero value.
type filler struct{ n int }

func (f *filler) fill(v reflect.Value) {
	f.n++
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			if field := v.Type().Field(i); field.IsExported() && field.Tag.Get("json") != "-" {
				f.fill(v.Field(i))
			}
		}
		if r, ok := v.Addr().Interface().(*mendplan.RuleValue); ok {
			r.Word = "" // a rule is a number or a word
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 3, 3))
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			f.fill(v.Index(i))
		}
	case reflect.Map:
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		f.fill(key)
		f.fill(value)
		v.Set(reflect.MakeMap(v.Type()))
		v.SetMapIndex(key, value)
	case reflect.String:
		if v.SetString(words[v.Type()]); v.String() == "" {
			v.SetString(fmt.Sprintf("text %d", f.n))
		}
	case reflect.Int:
		v.SetInt(int64(f.n))
	case reflect.Float64:
		v.SetFloat(float64(f.n) + 0.25)
	case reflect.Bool:
		v.SetBool(true)
	default:
		panic("a job has a field of the kind " + v.Kind().String() + ", which this test does not know")
	}
}

// TestEveryFieldOfAJobIsKept saves and loads a job in which no field is empty
// and holds it against what it was. With -update the file is kept among those
// of every version, unless this version has one already.
func TestEveryFieldOfAJobIsKept(t *testing.T) {
	var job mendplan.Job
	new(filler).fill(reflect.ValueOf(&job).Elem())
	job.Unknown, job.NewerBy = nil, ""
	for i := range job.Leaves { // names that must differ
		job.Leaves[i].ID = fmt.Sprintf("L%d", i+1)
		for k := range job.Leaves[i].Damages {
			job.Leaves[i].Damages[k].Number = i*3 + k + 1
		}
	}
	out, err := mendplan.Encode(job)
	if err != nil {
		t.Fatal(err)
	}
	back, problems, err := mendplan.Decode(out)
	if err != nil || len(problems) > 0 {
		t.Fatalf("%v %v", problems, err)
	}
	if diff := cmp.Diff(job, back); diff != "" {
		t.Errorf("saved and loaded it is another job (- before, + after):\n%s", diff)
	}
	if *update {
		path := filepath.Join("testdata", "versions", mendplan.Version+"-every-field.leafmend")
		if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
			if err := os.WriteFile(path, out, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	if strings.Contains(string(out), `""`) {
		t.Error("a text of the full job is empty")
	}
}
