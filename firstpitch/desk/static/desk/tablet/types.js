/**
 * What the tablet's modules hand to each other. Only types; nothing here runs.
 *
 * @typedef {object} Seen        An event of a handover, as it was seen. Never changed once it is kept.
 * @property {string} id         made by the device that saw it
 * @property {number} handover
 * @property {string} device     id of that device; "" for the desk itself
 * @property {number} number     counts up on that device: the order in which it saw things, whatever its clock said
 * @property {string} at         ISO 8601, UTC, by the clock of that device
 * @property {string} what       see the table of events in pages/live
 * @property {Record<string, any>} data
 * @property {string} [by]       shown name of who saw it, where known
 * @property {Person | null} [person]   who was signed in here when it was seen; only on this tablet's own
 *
 * @typedef {object} Waiting     A line of the outbox: one event that is not settled with the desk yet.
 * @property {string} id         the event's
 * @property {number} handover
 * @property {number} number
 * @property {"waiting"|"refused"|"conflict"|"put-away"} state   put-away: refused, and somebody has dealt with it
 * @property {string} why        the desk's words, for refused and conflict
 * @property {Person | null} person   who was signed in here when it was seen
 *
 * @typedef {object} Photo
 * @property {string} id
 * @property {number} handover
 * @property {ArrayBuffer | null} bytes   null once the desk has it and the room was needed
 * @property {string} type
 * @property {number} width      [px]
 * @property {number} height     [px]
 * @property {string | null} step
 * @property {string | null} snag
 * @property {string} at
 * @property {"waiting"|"sent"|"refused"|"put-away"} state
 * @property {string} why
 * @property {Person | null} person
 *
 * @typedef {{id: number, name: string}} Person
 *
 * @typedef {object} Unsent      What this tablet still owes the desk.
 * @property {number} events
 * @property {number} photos
 * @property {number} refused    set aside for a person
 * @property {number} conflicts  handovers with two answers to one question
 *
 * @typedef {{handover: number | null, what: "event"|"answer"|"pulled"|"kit"|"photo"|"forgotten"|"clock"}} Change
 */
export {};
