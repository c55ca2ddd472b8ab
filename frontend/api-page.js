/* Shows the OpenAPI document; kept out of api.html, since the policy allows no inline script. */
const place = document.getElementById('api');

window.SwaggerUIBundle({
  domNode: place,
  url: place.dataset.document,
  deepLinking: true,
  // no outside host is asked to judge the document
  validatorUrl: null,
});
