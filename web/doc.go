// Package web serves a gym to browsers and scripts.
//
// Every route stands in one table with what somebody must be allowed to do who uses it;
// a test walks the table as each role. A visitor is known by a cookie that an invitation
// gave their device. Answers are JSON, in the forms of package exchange, but for the few
// pages that people come in by.
//
// What one may see depends on who asks: what somebody typed, and the private part of
// what it was read as, goes to them and to coaches alone.
package web
