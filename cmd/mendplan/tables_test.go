package main

import (
	"os"
	"path/filepath"
	"testing"
)

// Whatever a table holds, reading it gives rows or an error, and every row
// that is given has sizes one can lay out.
func FuzzTables(f *testing.F) {
	f.Add("label,tissue,length_mm,width_mm,count,grain\nA,T,3,3,1,along\n", "tissue,kind,length_mm,width_mm,count,grain_along,margin_mm,price\nT,roll,0,600,1,length,0,9\n")
	f.Add("label,tissue,length_mm,width_mm,count,grain\n\"A,T,3,3,1,along\n", "\xff\x00,")
	f.Add("label,tissue,length_mm,width_mm,count,grain\n=A,T,1e99,-3,1e9,free\n", "")
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, pieces, stock string) {
		p, s := filepath.Join(dir, "p.csv"), filepath.Join(dir, "s.csv")
		if os.WriteFile(p, []byte(pieces), 0o600) != nil || os.WriteFile(s, []byte(stock), 0o600) != nil {
			return
		}
		blanks, _ := readPieces(p)
		for _, b := range blanks {
			if !(b.W > 0 && b.H > 0 && b.W <= mostMM && b.H <= mostMM) || b.Count < 0 || b.ID == "" {
				t.Errorf("a blank that cannot be: %+v", b)
			}
		}
		items, _ := readStock(s)
		for _, i := range items.items {
			if !(i.W > 0 && i.H >= 0) || i.Copies < 0 {
				t.Errorf("stock that cannot be: %+v", i)
			}
		}
	})
}
