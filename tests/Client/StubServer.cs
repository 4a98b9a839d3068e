using System.Text.Json;
using System.Text.Json.Nodes;
using FuelHistory.Contracts;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;
using WireMock.Server;
using WireMock.Settings;

namespace FuelHistory.Tests.Client;

/// <summary>A server that says what a test wants said.</summary>
internal sealed class StubServer : IDisposable
{
    private readonly WireMockServer _server = WireMockServer.Start(new WireMockServerSettings { StartAdminInterface = false });
    private int _priority = 1000;

    public Uri Address => new(_server.Url!);

    public StubServer Get(string path, object body) => Answer("GET", path, 200, Json(body));

    public StubServer Post(string path, object body) => Answer("POST", path, 201, Json(body));

    public StubServer Put(string path, object body) => Answer("PUT", path, 200, Json(body));

    public StubServer Refuse(string method, string path, int status, Problem problem) => Answer(method, path, status, Json(problem), "application/problem+json");

    /// <summary>The newest answer for a path goes before older ones.</summary>
    public StubServer Answer(string method, string path, int status, string text, string type = "application/json", TimeSpan? after = null)
    {
        var response = Response.Create().WithStatusCode(status).WithHeader("Content-Type", type).WithBody(text);
        _server.Given(Request.Create().WithPath(path).UsingMethod(method)).AtPriority(_priority--).RespondWith(after is { } delay ? response.WithDelay(delay) : response);
        return this;
    }

    /// <summary>Bodies sent to a path, in order.</summary>
    public IReadOnlyList<JsonNode> Sent(string method, string path) =>
        [.. _server.LogEntries.Where(entry => entry.RequestMessage!.Method == method && entry.RequestMessage.Path == path).Select(entry => JsonNode.Parse(entry.RequestMessage!.Body!)!)];

    public int Count(string method, string path) => _server.LogEntries.Count(entry => entry.RequestMessage!.Method == method && entry.RequestMessage.Path == path);

    public string? Header(string name) => _server.LogEntries[^1].RequestMessage!.Headers!.TryGetValue(name, out var values) ? values.ToString() : null;

    /// <summary>A query parameter of the newest request to a path.</summary>
    public string? Asked(string path, string name) => _server.LogEntries.Last(entry => entry.RequestMessage!.Path == path).RequestMessage!.Query?.TryGetValue(name, out var values) is true ? values.ToString() : null;

    /// <summary>A header of the newest request to a path.</summary>
    public string? Header(string method, string path, string name) =>
        _server.LogEntries.Last(entry => entry.RequestMessage!.Method == method && entry.RequestMessage.Path == path).RequestMessage!.Headers!.TryGetValue(name, out var values) ? values.ToString() : null;

    public void Dispose() => _server.Dispose();

    public static string Json(object body) => JsonSerializer.Serialize(body, body.GetType(), JsonSerializerOptions.Web);
}
