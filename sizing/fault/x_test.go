package fault_test

import (
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"fmt"
	"syscall"
	"testing"
	"time"
)

func cpu() time.Duration {
	var u syscall.Rusage
	syscall.Getrusage(0, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
func try(h *harness.Harness, r *result.Result, name string) {
	c0, t0 := cpu(), time.Now()
	b, err := fault.New(h, r)
	if err != nil {
		panic(err)
	}
	fmt.Println(name, len(b.Faults()), "silent", len(b.Silent()), "cpu", cpu()-c0, "wall", time.Since(t0))
	n := map[string]int{}
	m := 0
	for _, f := range b.Faults() {
		n[string(f.Kind)]++
		m += len(f.Volts)
		if name == "first" || name == "kestrel" {
			s := ""
			for _, e := range f.Dead {
				s += " " + h.Elements[e].Name
			}
			s += " weak"
			for _, e := range f.Weak {
				s += " " + h.Elements[e].Name
			}
			s += " extra"
			for _, e := range f.Extra {
				s += " " + h.Elements[e].Name
			}
			s += " blown"
			for _, e := range f.Blown {
				s += " " + h.Elements[e].Name
			}
			l := ""
			if f.Load >= 0 {
				l = h.Elements[f.Load].Name
			}
			fmt.Printf("   %-22s %-14s load %-8s %.4g ohm dead%s volts %d\n", f.ID, h.States[f.State].Name, l, float64(f.Ohms), s, len(f.Volts))
		}
	}
	fmt.Println(n, "shows", m)
}
func TestX(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		try(h, r, s.Name)
	}
	h := grown.Harness(t, 1000, 1)
	r, err := sizing.Size(h, nil)
	if err != nil {
		t.Fatal(err)
	}
	sizing.Prove(h, r)
	try(h, r, "grown")
}
func TestW(t *testing.T){ for _,s:=range samples.List(){ h,r:=worked.Out(t,s); 
 b,_:=fault.New(h,r); z:=0
 for _,f:=range b.Faults(){ if f.Weight==0 {z++; fmt.Print(f.ID," ")}; if s.Name=="first" {fmt.Printf("%s %.2f %s\n",f.ID,f.Weight,f.Why)} }
 fmt.Println(s.Name,"without weight",z)
}}
