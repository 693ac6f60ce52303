import { expect, test } from '@playwright/test'
import { visit } from './page'
import { otherImages, refused, tileImage, trespass } from './trespass'

/* That the page itself does nothing of the kind is looked at by every other test: a policy that is offended fails it. */
test('a text is no markup, no script and no worker; images come from the page and the server of the tiles that is set', async ({
  page,
}) => {
  await page.route(
    ({ hostname }) => hostname !== 'localhost',
    (route) => route.abort(),
  )
  await visit(page)
  expect(await page.evaluate(trespass, [tileImage, ...otherImages])).toEqual(refused)
})
