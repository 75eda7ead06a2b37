"""What Kitwright is made with: pinned versions, their licences, a bill of materials, and for which computers there are wheels."""
