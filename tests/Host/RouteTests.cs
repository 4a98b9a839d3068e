using System.Net;
using System.Reflection;
using System.Text.Json;
using FuelHistory.Contracts;

namespace FuelHistory.Tests.Host;

/// <summary>The routes of the contract, the OpenAPI document and what is really served are the same.</summary>
public sealed class RouteTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Document_lists_exactly_the_routes_of_the_contract()
    {
        var document = await Documented.Of(host.Address);

        Assert.StartsWith("3.1", document.GetProperty("openapi").GetString(), StringComparison.Ordinal);
        Assert.Equal(Contract().Order(StringComparer.Ordinal), document.GetProperty("paths").EnumerateObject().Select(p => p.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Document_names_describes_and_tags_every_operation()
    {
        var operations = Operations(await Documented.Of(host.Address)).ToList();

        Assert.Equal(operations.Count, operations.Select(o => o.Operation.GetProperty("operationId").GetString()).Distinct().Count());
        Assert.All(operations, o =>
        {
            Assert.True(o.Operation.GetProperty("summary").GetString()!.Length > 8, o.Path);
            Assert.Equal(1, o.Operation.GetProperty("tags").GetArrayLength());
            var responses = o.Operation.GetProperty("responses");
            Assert.True(responses.TryGetProperty("500", out _), o.Path);
            Assert.Equal(o.Path.Contains('{', StringComparison.Ordinal), responses.TryGetProperty("404", out _));
            Assert.Equal(o.Operation.TryGetProperty("requestBody", out _), responses.TryGetProperty("415", out _));
            Assert.Equal(responses.TryGetProperty("201", out var made), made.ValueKind == JsonValueKind.Object && made.GetProperty("headers").TryGetProperty("Location", out _));
        });
    }

    [Fact]
    public async Task Document_types_every_member_of_every_schema()
    {
        var schemas = (await Documented.Of(host.Address)).GetProperty("components").GetProperty("schemas");
        foreach (var member in schemas.EnumerateObject().SelectMany(s => s.Value.GetProperty("properties").EnumerateObject()))
        {
            Assert.True(member.Value.TryGetProperty("type", out _) || member.Value.TryGetProperty("$ref", out _) || member.Value.TryGetProperty("oneOf", out _), member.Name);
        }

        var numbers = schemas.GetProperty("Measured").GetProperty("properties").GetProperty("value").GetProperty("type");
        Assert.Equal("number", numbers.GetString());
    }

    [Fact]
    public async Task Every_route_that_reads_answers_head_with_the_headers_of_get_and_no_body()
    {
        var car = await host.Vehicle();
        var complaint = await host.Complaint(car);
        var paths = Operations(await Documented.Of(host.Address)).Where(o => o.Method == "get")
            .Select(o => o.Path.Replace("{vehicleId}", car, StringComparison.Ordinal).Replace("{complaintId}", complaint, StringComparison.Ordinal)
                .Replace("{faultModelId}", "test-circuit", StringComparison.Ordinal).Replace("{checkId}", "plugs", StringComparison.Ordinal)
                .Replace("{entryId}", "none", StringComparison.Ordinal));
        foreach (var path in paths)
        {
            var (get, head) = (await host.Get(path), await host.Send(HttpMethod.Head, path, null));

            Assert.Equal(get.Status, head.Status);
            Assert.Equal("", head.Text);
            Assert.Equal(get.ETag, head.ETag);
            Assert.Equal(get.Content.ContentType, head.Content.ContentType);
        }
    }

    [Fact]
    public async Task Every_other_method_of_every_route_is_refused_with_those_allowed()
    {
        var document = await Documented.Of(host.Address);
        foreach (var path in document.GetProperty("paths").EnumerateObject())
        {
            foreach (var method in new[] { HttpMethod.Get, HttpMethod.Post, HttpMethod.Put, HttpMethod.Delete, HttpMethod.Patch, HttpMethod.Trace }.Where(m => !path.Value.TryGetProperty(m.Method.ToLowerInvariant(), out _)))
            {
                var refused = await host.Send(method, path.Name.Replace("{", "", StringComparison.Ordinal).Replace("}", "", StringComparison.Ordinal), null);

                Assert.Equal(HttpStatusCode.MethodNotAllowed, refused.Status);
                Assert.Equal(path.Value.EnumerateObject().Select(o => o.Name.ToUpperInvariant()).Order(StringComparer.Ordinal), refused.Content.Allow.Where(a => a != "HEAD").Order(StringComparer.Ordinal));
            }
        }
    }

    [Fact]
    public async Task Answers_are_not_cached_unasked_and_foreign_host_names_are_refused()
    {
        var list = await host.Get("/v1/vehicles");
        Assert.True(list.Headers.CacheControl!.Private && list.Headers.CacheControl.NoCache);
        Assert.False(list.Headers.Contains("Server"));

        var foreign = await host.Send(HttpMethod.Get, "/livez", null, ("Host", "rebound.example"));
        Assert.Equal(HttpStatusCode.MisdirectedRequest, foreign.Status);
    }

    public void Dispose() => host.Dispose();

    private static IEnumerable<string> Contract() => typeof(Routes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(f => (string)f.GetRawConstantValue()!).Where(r => r != Routes.OpenApi);

    private static IEnumerable<(string Path, string Method, JsonElement Operation)> Operations(JsonElement document) =>
        document.GetProperty("paths").EnumerateObject().SelectMany(p => p.Value.EnumerateObject().Select(o => (p.Name, o.Name, o.Value)));
}
