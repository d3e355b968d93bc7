package sim_test
import ("testing";"context";"roomful/sim";"slices")
func TestY(t *testing.T){
 m:=sim.New(lexicon)
 f,_:=m.Forecast(context.Background(),twenty(1000))
 s:=f.Athletes[0].Scores
 slices.Sort(s)
 t.Log(s[300:700])
}
