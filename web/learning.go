package web

import (
	"context"
	"net/http"
	"time"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// Background does what an answer need not wait for.
type Background interface {
	// Arrived says that somebody's score has come, by the change that brought it.
	Arrived(gym, person string, seq int64)
	// Night has a gym learn from all its scores now.
	Night(ctx context.Context, gym string) error
}

// learning says how far learning from all scores is.
func (s *Server) learning(w http.ResponseWriter, q *http.Request, v visit) error {
	var out exchange.Learning
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		b := tx.In(v.Gym)
		l, err := b.Learning()
		if err != nil {
			return err
		}
		waiting, err := b.Unlearnt(l.Seq)
		out = exchange.Learning{Percent: l.Percent, BeganAt: orNull(l.BeganAt), DoneAt: orNull(l.DoneAt), Waiting: len(waiting)}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// learnAgain has the gym learn from all its scores now.
func (s *Server) learnAgain(w http.ResponseWriter, q *http.Request, v visit) error {
	if s.Background == nil {
		return &refusal{http.StatusServiceUnavailable, roomful.Error{Summary: "nothing works in the background here", Hint: "ask where the gym is served from for good"}}
	}
	if err := s.Background.Night(q.Context(), v.Gym); err != nil {
		return err
	}
	if wantsPage(q) {
		return next(w, q, "/learning?said=learning")
	}
	w.WriteHeader(http.StatusAccepted)
	return nil
}

// abilities shows what is believed of somebody after their scores: for coaches.
func (s *Server) abilities(w http.ResponseWriter, q *http.Request, v visit) error {
	var out exchange.LearntAthlete
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		b := tx.In(v.Gym)
		who, err := b.Person(q.PathValue("person"))
		if err != nil {
			return err
		}
		learnt, err := b.Learnt(who.ID)
		if err != nil {
			return err
		}
		var known *roomful.Abilities
		if len(learnt) > 0 {
			known = &learnt[0].Abilities
		}
		out = exchange.AbilitiesOf(who.Athlete, known, s.Lexicon)
		return nil
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// orNull is a moment for an answer, null for none.
func orNull(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}
