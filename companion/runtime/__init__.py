"""The imperative shell: one event after another, alarms, the sender, drawing. It does things in order."""
