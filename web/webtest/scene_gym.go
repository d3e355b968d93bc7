package webtest

import (
	"roomful/store"
	"roomful/web/browser"
)

// running are the scenes of what the gym owns, how it likes things and who may sign in.
var running = []Scene{
	{Name: "coach-kit", Of: "GET /kit", As: store.Coach, Path: "/kit"},
	{Name: "owner-kit-empty", Of: "GET /kit", As: store.Owner, Path: "/kit", Empty: true, Sizes: []browser.Size{browser.Phone}},
	{Name: "coach-kit-text", Of: "GET /kit", As: store.Coach, Path: "/kit?as=text", Sizes: []browser.Size{browser.Phone}},
	{Name: "coach-kit-wrong", Of: "POST /kit", As: store.Coach, Path: "/kit", Then: func(t *browser.Tab) {
		t.Fill("Rowing machines", "many")
		t.Click("Keep it")
	}},
	{Name: "owner-settings", Of: "GET /settings", As: store.Owner, Path: "/settings"},
	{Name: "coach-settings", Of: "GET /settings", As: store.Coach, Path: "/settings", Sizes: []browser.Size{browser.Phone, browser.Laptop}},
	{Name: "owner-settings-wrong", Of: "POST /settings", As: store.Owner, Path: "/settings?as=text", Then: func(t *browser.Tab) {
		t.Fill("Settings", "name: The Drying Floor\nhour:\n  brieving: 3 min\n")
		t.Click("Keep it")
	}},
	{Name: "owner-accounts", Of: "GET /accounts", As: store.Owner, Path: "/accounts"},
	{Name: "owner-link", Of: "POST /accounts/link", As: store.Owner, Path: "/accounts", Sizes: []browser.Size{browser.Phone}, Then: func(t *browser.Tab) { t.Click("Make a link") }},
	{Name: "owner-link-none", Of: "GET /accounts/link/{role}", As: store.Owner, Path: "/accounts/link/screen", Sizes: []browser.Size{browser.Phone}},
	{Name: "owner-trail", Of: "GET /trail", As: store.Owner, Path: "/trail"},
	{Name: "coach-learning", Of: "GET /learning", As: store.Coach, Path: "/learning", Sizes: []browser.Size{browser.Phone}},
	{Name: "member-erase-refused", Of: "POST /me/erase", As: store.Member, Path: "/me", Then: func(t *browser.Tab) {
		t.Fill("Your name, to be sure", "Nobody")
		t.Click("Erase all that is kept of me")
	}},
	{Name: "member-passkey-gone", Of: "POST /passkeys/{passkey}/drop", As: store.Member, Path: "/me?said=passkey-gone", Sizes: []browser.Size{browser.Phone}},
}
