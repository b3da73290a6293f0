package cutopt_test
import ("testing";"context";"os";"path/filepath";"time";"plank.example/cutopt";"plank.example/cutopt/jobfile")
func TestZZ(t *testing.T){
 fs,_:=filepath.Glob("../examples/"+os.Getenv("ZZ")+".yaml")
 for _,f:=range fs{
  fh,_:=os.Open(f)
  job,err:=jobfile.Decode(fh,f)
  if err!=nil{t.Fatal(err)}
  res,err:=cutopt.Solve(context.Background(),job,nil)
  if err!=nil{t.Fatal(err)}
  for _,w:=range []int{1}{
  br:=cutopt.DefaultBreakage(); br.Workers=w; br.Runs=60
  t0:=time.Now()
  v,err:=cutopt.Risk(context.Background(),job,res.Plan,&br)
  if err!=nil{t.Fatal(err)}
  t.Logf("%s workers %d %v planks %d bound %d: rec %d close %v lost %.2f",f,w,time.Since(t0),res.Plan.Order.Planks,res.Plan.Bound.Planks,v.Recommended,v.Close,v.Lost)
  for _,c:=range v.Counts{ t.Logf("%+v",c)}
  }}
}
