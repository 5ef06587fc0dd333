"""What holds a raft and lets it go: hydrostatic release, weak link, painter joint, and whatever lies in the way."""
