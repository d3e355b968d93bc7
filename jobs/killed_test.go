package jobs_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"roomful/store/sqlite"
)

// workOn works on the gym of a folder for good.
func workOn(dir string) error {
	s, err := sqlite.Open(context.Background(), dir)
	if err != nil {
		return err
	}
	if _, err := crew(context.Background(), s); err != nil {
		return err
	}
	select {}
}

// TestKilledAtWork kills a program at random moments of its first night. Whoever comes
// next ends it, and what is learnt is what an undisturbed night learns.
func TestKilledAtWork(t *testing.T) {
	dir := t.TempDir()
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := fill(t.Context(), s); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	for range 6 {
		child := exec.Command(os.Args[0])
		child.Env = append(os.Environ(), worksIn+"="+dir)
		child.Stderr = os.Stderr
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(200*time.Millisecond + rand.N(1500*time.Millisecond))
		child.Process.Kill()
		var killed *exec.ExitError
		if err := child.Wait(); !errors.As(err, &killed) || killed.Exited() {
			t.Fatalf("the child ended by itself: %v", err)
		}
	}
	if s, err = sqlite.Open(t.Context(), dir); err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	c, err := crew(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Stop()
	until(t, "somebody to end the night", nightOver(t, s, time.Time{}))
	if diff := cmp.Diff(inMemory(t), abilities(t, s), cmpopts.EquateNaNs()); diff != "" {
		t.Errorf("(-undisturbed +killed)\n%s", diff)
	}
}
