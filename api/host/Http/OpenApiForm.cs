using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace FuelHistory.Host.Http;

/// <summary>The OpenAPI document: 3.1, one operation per GET (HEAD is the same without body), times and numbers as they are.</summary>
internal static class OpenApiForm
{
    public static void Set(OpenApiOptions options)
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info.Title = "FuelHistory";
            document.Info.Description = "The record of old fuel-injected cars, and what is most likely wrong with them now. Every refusal is a problem (RFC 9457) with a stable code. An address that is not listed answers 404, a method that is not listed 405; HEAD goes wherever GET goes. Lists are complete; there are no pages.";
            document.Info.License = new OpenApiLicense { Name = "MIT", Identifier = "MIT" };
            foreach (var path in document.Paths.Values)
            {
                path.Operations?.Remove(HttpMethod.Head);
            }

            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, _, _) =>
        {
            foreach (var parameter in (operation.Parameters ?? []).Where(p => p.Name == "If-Match").OfType<OpenApiParameter>())
            {
                parameter.Description = "The version that is to be changed, as its ETag gave it (\"3\"); where it is no longer the newest nothing is changed.";
            }

            return Task.CompletedTask;
        });
    }
}
