namespace FuelHistory.Host.Http;

/// <summary>Headers that every answer carries, and a fence against web pages that try to reach a program on this machine:
/// what arrives over loopback is answered under loopback names only, so that no foreign name can be pointed at it. Behind a
/// proxy on the same machine, HostNames lists the names that are meant ("garage.example;garage").</summary>
internal sealed class Guard(RequestDelegate next, IConfiguration configuration)
{
    private readonly string[] named = (configuration["HostNames"] ?? "").Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    public Task InvokeAsync(HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.CacheControl = "private, no-cache";
        headers.XContentTypeOptions = "nosniff";
        var local = context.Connection.LocalIpAddress;
        if (local is not null && System.Net.IPAddress.IsLoopback(local) && !IsExpected(context.Request.Host.Host))
        {
            return ProblemAnswers.Malformed(StatusCodes.Status421MisdirectedRequest, $"This program answers on this machine only, not as \"{context.Request.Host.Host}\".").ExecuteAsync(context);
        }

        return next(context);
    }

    private bool IsExpected(string host) =>
        host is "localhost" || named.Contains(host, StringComparer.OrdinalIgnoreCase) || (System.Net.IPAddress.TryParse(host.Trim('[', ']'), out var address) && System.Net.IPAddress.IsLoopback(address));
}
