package webtest

import (
	"testing"

	"roomful/store"
	"roomful/web/browser"
)

// people are the scenes of who comes and what they told.
var people = []Scene{
	{Name: "coach-people", Of: "GET /people", As: store.Coach, Path: "/people"},
	{Name: "coach-people-none", Of: "GET /people", As: store.Coach, Path: "/people?find=zz", Sizes: []browser.Size{browser.Phone}},
	{Name: "owner-people-empty", Of: "GET /people", As: store.Owner, Path: "/people", Empty: true, Sizes: []browser.Size{browser.Phone}},
	{Name: "coach-drop-in-twin", Of: "POST /people/drop-in", As: store.Coach, Path: "/people", Then: func(t *browser.Tab) {
		t.Fill("Their name", "Pia")
		t.Click("Add them")
	}},
	{Name: "coach-person", Of: "GET /people/{person}", As: store.Coach, Path: "/people/teodor"},
	{Name: "member-person", Of: "GET /people/{person}", As: store.Member, Path: "/people/" + Member},
	{Name: "coach-limit-refused", Of: "POST /people/{person}/limits/{limit}", As: store.Coach, Path: "/people/marit", Then: func(t *browser.Tab) {
		t.Click("Add a limit")
		t.Click("Keep it")
	}},
	{Name: "coach-person-left", Of: "POST /people/{person}/left", As: store.Coach, Path: "/people/jun", First: own, Sizes: []browser.Size{browser.Phone}, Then: func(t *browser.Tab) {
		t.Click("Jun has left")
	}},
	{Name: "coach-told", Of: "GET /people/{person}/told", As: store.Coach, Path: "/people/lorcan/told"},
	{Name: "coach-told-wrong", Of: "POST /people/{person}/told", As: store.Coach, Path: "/people/pia/told", Then: func(t *browser.Tab) {
		t.Fill("Row 2 km", "8:99")
		t.Fill("Owned at home", "flying carpet")
		t.Click("Keep it")
	}},
	{Name: "coach-link-none", Of: "GET /people/{person}/link", As: store.Coach, Path: "/people/pia/link", Sizes: []browser.Size{browser.Phone}},
	{Name: "coach-link", Of: "POST /people/{person}/link", As: store.Coach, Path: "/people/pia", Then: func(t *browser.Tab) { t.Click("Make a link for Pia") }},
	{Name: "coach-import", Of: "GET /import", As: store.Coach, Path: "/import"},
	{Name: "coach-import-read", Of: "POST /import", As: store.Coach, Path: "/import", Then: func(t *browser.Tab) {
		t.Fill("Or paste it here", "name,born,squat_kg\nUna,1990,80\nPia,,90\n")
		t.Click("Look at it")
	}},
	{Name: "coach-import-wrong", Of: "POST /import", As: store.Coach, Path: "/import", Sizes: []browser.Size{browser.Phone}, Then: func(t *browser.Tab) {
		t.Fill("Or paste it here", "name,born,squat_kg\nUna,soon,80\nPia,,heavy\n")
		t.Click("Look at it")
	}},
}

// own has a scene be in a gym of its own.
func own(testing.TB, *Gym) {}
