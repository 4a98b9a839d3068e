using System.Text.RegularExpressions;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace FuelHistory.Host.Http;

/// <summary>The OpenAPI document: 3.1, one operation per GET (HEAD is the same without body), times and tags as they are.</summary>
internal static partial class OpenApiForm
{
    private const string About =
        "The record of old fuel-injected cars, and what is most likely wrong with them now. Every refusal is a problem (RFC 9457) with a stable code. "
        + "An address that is not listed answers 404, a method that is not listed 405; HEAD goes wherever GET goes. Lists are complete; there are no pages.";

    public static void Set(OpenApiOptions options)
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.AddDocumentTransformer(Document);
        options.AddOperationTransformer(Operation);
        options.AddSchemaTransformer(Schema);
    }

    private static Task Document(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancellationToken)
    {
        document.Info.Title = "FuelHistory";
        document.Info.Description = About;
        document.Info.License = new OpenApiLicense { Name = "MIT", Identifier = "MIT" };
        foreach (var path in document.Paths.Values)
        {
            path.Operations?.Remove(HttpMethod.Head);
        }

        return Task.CompletedTask;
    }

    private static Task Operation(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellationToken)
    {
        foreach (var parameter in (operation.Parameters ?? []).Where(p => p.Name == "If-Match").OfType<OpenApiParameter>())
        {
            parameter.Description = "The version that is to be changed, as its ETag gave it (\"3\"); where it is no longer the newest nothing is changed.";
        }

        Plain(operation.RequestBody?.Content);
        foreach (var (status, answer) in operation.Responses ?? [])
        {
            Plain(answer.Content);
            var tagged = status == "201" || (status is "200" or "304" && context.Description.ActionDescriptor.EndpointMetadata.OfType<Tagged>().Any());
            if (tagged && answer is OpenApiResponse response)
            {
                response.Headers ??= new Dictionary<string, IOpenApiHeader>();
                response.Headers["ETag"] = Header("The version, for If-Match and If-None-Match.");
                if (status == "201")
                {
                    response.Headers["Location"] = Header("Where the new entry is.");
                }
            }
        }

        return Task.CompletedTask;
    }

    // files and pictures have no members
    private static void Plain(IDictionary<string, OpenApiMediaType>? content)
    {
        foreach (var (type, body) in (content ?? new Dictionary<string, OpenApiMediaType>()).Where(c => !c.Key.EndsWith("json", StringComparison.Ordinal)))
        {
            body.Schema = new OpenApiSchema { Type = type == "multipart/form-data" ? JsonSchemaType.Object : JsonSchemaType.String };
        }
    }

    // a converter of our own hides from the schema that an instant is a string
    private static Task Schema(OpenApiSchema schema, OpenApiSchemaTransformerContext context, CancellationToken cancellationToken)
    {
        if (context.JsonTypeInfo.Type == typeof(DateTimeOffset))
        {
            schema.Type = JsonSchemaType.String;
        }
        else if (context.JsonTypeInfo.Type == typeof(DateTimeOffset?))
        {
            schema.Type = JsonSchemaType.String | JsonSchemaType.Null;
        }

        if (schema.Description is { } text)
        {
            schema.Description = Spaces().Replace(text, " ");
        }

        return Task.CompletedTask;
    }

    private static OpenApiHeader Header(string description) =>
        new() { Description = description, Schema = new OpenApiSchema { Type = JsonSchemaType.String } };

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
