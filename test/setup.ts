// Files of one worker share their modules, and this is read before each: what it imports is read once.
import './same-bytes'
