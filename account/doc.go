// Package account lets people in: the owner who is first, those whom somebody invites,
// and the devices they come back with.
//
// Nobody types a name to come in. An invitation is a secret in a link or a square code;
// taken up once and in time it opens an account and signs the device in. A device keeps
// a secret of its own, which is renewed while it is used and can be taken back from
// every device. The store has only the hashes of secrets. Owners and coaches may have a
// password too, kept as argon2id.
//
// What each role may do stands in one table, [May].
//
// Randomness and time come in as arguments. What is refused is refused in the same words
// whatever the reason, so that nobody learns who has an account.
package account
