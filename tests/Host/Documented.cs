using System.Text.Json;
using System.Text.RegularExpressions;

namespace FuelHistory.Tests.Host;

/// <summary>Stands between every test and the host: each refusal that a test provokes on an operation of the OpenAPI document
/// must be listed there, with the problem's media type. Other addresses and methods have no operation to be listed under.</summary>
internal sealed class Documented(ApiHost host) : DelegatingHandler
{
    private static readonly SemaphoreSlim Gate = new(1, 1);
    private static JsonElement? document;

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var response = await base.SendAsync(request, cancellationToken);
        if ((int)response.StatusCode < 400)
        {
            return response;
        }

        var said = await Of(host.Address, cancellationToken);
        if (Operation(said, request) is not { } operation)
        {
            return response;
        }

        var status = ((int)response.StatusCode).ToString(System.Globalization.CultureInfo.InvariantCulture);
        Assert.True(operation.GetProperty("responses").TryGetProperty(status, out var listed), $"{request.Method} {request.RequestUri!.AbsolutePath} answered {status}, which the document does not list.");
        Assert.Equal("#/components/schemas/Problem", listed.GetProperty("content").GetProperty("application/problem+json").GetProperty("schema").GetProperty("$ref").GetString());
        return response;
    }

    public static async Task<JsonElement> Of(Uri address, CancellationToken cancellationToken = default)
    {
        await Gate.WaitAsync(cancellationToken);
        try
        {
            if (document is null)
            {
                using HttpClient plain = new();
                document = JsonDocument.Parse(await plain.GetStringAsync(new Uri(address, "/openapi/v1.json"), cancellationToken)).RootElement;
            }

            return document.Value;
        }
        finally
        {
            Gate.Release();
        }
    }

    private static JsonElement? Operation(JsonElement said, HttpRequestMessage request)
    {
        var path = request.RequestUri!.AbsolutePath;
        var method = request.Method == HttpMethod.Head ? "get" : request.Method.Method.ToLowerInvariant();
        foreach (var template in said.GetProperty("paths").EnumerateObject())
        {
            if (Regex.IsMatch(path, "^" + Regex.Replace(template.Name, @"\{\w+\}", "[^/]+") + "$") && template.Value.TryGetProperty(method, out var operation))
            {
                return operation;
            }
        }

        return null;
    }
}
