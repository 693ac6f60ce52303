import { bound } from './bound'
import { mapSettingsIn } from './en/mapSettings'

/** Words of the map's settings, which come with them. */
export const mapSettingsWordsIn = bound(mapSettingsIn)
